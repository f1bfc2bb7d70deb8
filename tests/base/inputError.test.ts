import { describe, expect, it } from 'vitest';
import { InputError } from '../../src/base/index.js';

describe('InputError', () => {
  it('carries a code, a sentence and a place', () => {
    const error = new InputError('bad-value', 'A bar has no length.', { file: 'waltz.musicxml', bar: '12a', line: 40 });
    expect(error).toBeInstanceOf(Error);
    expect([error.name, error.code, error.message]).toEqual(['InputError', 'bad-value', 'A bar has no length.']);
    expect(error.place).toEqual({ file: 'waltz.musicxml', bar: '12a', line: 40 });
  });

  it('describes itself on one line, place first', () => {
    const error = new InputError('bad-value', 'A bar has no length.', { file: 'waltz.musicxml', bar: '12a', line: 40 });
    expect(error.describe()).toBe('waltz.musicxml, bar 12a, line 40: A bar has no length.');
  });

  it('names a place at the very beginning, and an empty bar number', () => {
    expect(new InputError('empty', 'Nothing.', { byte: 0 }).describe()).toBe('byte 0: Nothing.');
    expect(new InputError('empty', 'Nothing.', { bar: '' }).describe()).toBe('bar : Nothing.');
  });

  it('without a place it is the sentence alone', () => {
    expect(new InputError('empty', 'Nothing.').describe()).toBe('Nothing.');
  });

  it('takes the name of its file later, keeping the rest and leaving itself as it was', () => {
    const error = new InputError('no-notes', 'No notes.', { byte: 14 });
    const named = error.inFile('take.mid');
    expect(named).toBeInstanceOf(InputError);
    expect([named.code, named.message, named.place]).toEqual(['no-notes', 'No notes.', { byte: 14, file: 'take.mid' }]);
    expect(error.place).toEqual({ byte: 14 });
  });

  it('a file name given later replaces one given before', () => {
    expect(new InputError('empty', 'Nothing.', { file: 'a' }).inFile('b').place.file).toBe('b');
  });
});
