import { describe, expect, it } from 'vitest';
import { touchAsked } from '../../src/measure/index.js';
import { heldPiece, type Held } from './holdingPiece.js';
import { right } from './piece.js';

const asked = (...notes: readonly Held[]) => touchAsked(heldPiece(notes).score);
const at = (beat: number, more: Partial<Held> = {}): Held => ({ ...right(1, beat, 60 + beat), ...more });

describe('what the page asks (MusicXML 4.0: dot staccato, wedge staccatissimo, line tenuto, line and dot portato)', () => {
  it.each([
    ['nothing', {}, null],
    ['a dot', { marks: ['staccato'] as const }, 'staccato'],
    ['a wedge', { marks: ['staccatissimo'] as const }, 'staccatissimo'],
    ['a line', { marks: ['tenuto'] as const }, 'tenuto'],
    ['a line and a dot', { marks: ['detachedLegato'] as const }, 'portato'],
    ['a line and a dot written apart', { marks: ['tenuto', 'staccato'] as const }, 'portato'],
    ['an accent alone', { marks: ['accent'] as const }, null],
  ])('%s', (_, more, touch) => {
    expect(asked(at(1, more), at(2))[0]?.touch).toBe(touch);
  });

  it('a slur joins all its notes but the last on to the next', () => {
    const found = asked(at(1, { slur: 'start' }), at(2), at(3, { slur: 'stop' }), at(4));
    expect(found.map(({ joined }) => joined)).toEqual([true, true, false, false]);
    expect(found.map(({ slurEnds }) => slurEnds)).toEqual([0, 0, 3, 0]);
  });

  it('where one slur ends and the next begins on one note, the line goes on', () => {
    const found = asked(at(1, { slur: 'start' }), at(2, { slur: 'stopStart' }), at(3, { slur: 'stop' }));
    expect(found.map(({ joined }) => joined)).toEqual([true, true, false]);
  });

  it('dots under a slur are portato, its last note with them; where only the last has one it is a staccato', () => {
    const dot = { marks: ['staccato'] as const };
    const found = asked(at(1, { slur: 'start', ...dot }), at(2, dot), at(3, { slur: 'stop', ...dot }));
    expect(found.map(({ touch }) => touch)).toEqual(['portato', 'portato', 'portato']);
    const lifted = asked(at(1, { slur: 'start' }), at(2), at(3, { slur: 'stop', ...dot }));
    expect(lifted.map(({ touch }) => touch)).toEqual(['slurred', 'slurred', 'staccato']);
  });

  it('a slur of one voice asks nothing of another', () => {
    const found = asked(at(1, { slur: 'start' }), at(1, { pitch: 48, voice: '2' }), at(2, { slur: 'stop' }));
    expect(found.map(({ joined }) => joined)).toEqual([true, false, false]);
  });

  it('a slur without an end asks nothing', () => {
    expect(asked(at(1, { slur: 'start' }), at(2)).map(({ touch }) => touch)).toEqual([null, null]);
  });
});
