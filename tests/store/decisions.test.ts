import { describe, expect, it } from 'vitest';
import { InputError } from '../../src/base/index.js';
import { readDecisions } from '../../src/judge/index.js';
import { asDecisions, openStore } from '../../src/store/index.js';
import { furnishedStore, ownFolder } from './folder.js';

const right = { kind: 'right', value: { aspect: 'notes', kind: 'wrong', hand: 'left', notes: ['n7'], bars: null } } as const;
const left = { kind: 'left', value: { aspect: 'tempo', kind: 'slow' } } as const;
const nell = { pupilId: 1, pieceId: 1 };

describe('decisions', () => {
  it('are there after a restart, with everything that was decided', () => {
    const folder = ownFolder();
    const store = furnishedStore(folder);
    store.addDecision(nell, right);
    const other = openStore(folder);
    expect(asDecisions(other.decisionsFor(nell)).rightAsPlayed).toEqual([right.value]);
    other.close();
  });

  it('hold for a pupil, a piece, or everybody, as they were made', () => {
    const store = furnishedStore();
    const other = store.addPupil('Tam Farrow');
    store.addDecision({ pupilId: null, pieceId: 1 }, right);
    store.addDecision({ pupilId: 1, pieceId: null }, left);
    expect(store.decisionsFor(nell).map(({ kind }) => kind)).toEqual(['right', 'left']);
    expect(store.decisionsFor({ pupilId: other.id, pieceId: 1 }).map(({ kind }) => kind)).toEqual(['right']);
    expect(store.decisionsFor({ pupilId: 1, pieceId: 99 }).map(({ kind }) => kind)).toEqual(['left']);
  });

  it('are taken back and put back', () => {
    const store = furnishedStore();
    const { id } = store.addDecision(nell, left);
    expect(store.removeDecision(id).removedAt).not.toBeNull();
    expect(store.decisionsFor(nell)).toEqual([]);
    expect(store.decisionsFor({ ...nell, takenBack: true }).map((one) => one.id)).toEqual([id]);
    expect(store.decisionsFor({ pupilId: 2, pieceId: 1, takenBack: true })).toEqual([]);
    store.restoreDecision(id);
    expect(store.decisionsFor(nell)).toHaveLength(1);
  });

  it('the later preference comes before the earlier, aspect by aspect', () => {
    const store = furnishedStore();
    store.addDecision(nell, { kind: 'preferences', value: { strictness: { tempo: 'lenient', pedal: 'strict' }, lookAt: ['rhythm'] } });
    store.addDecision(nell, { kind: 'preferences', value: { strictness: { tempo: 'strict' }, lookAt: ['pedal'] } });
    expect(asDecisions(store.decisionsFor(nell)).preferences).toEqual({ strictness: { tempo: 'strict', pedal: 'strict' }, lookAt: ['pedal'] });
  });
});

describe('decisions from a file', () => {
  it('may leave parts out, and one bar may be given once', () => {
    expect(readDecisions({})).toEqual({ rightAsPlayed: [], left: [], preferences: { strictness: {}, lookAt: [] } });
    expect(readDecisions({ rightAsPlayed: [{ aspect: 'notes', bars: ['7'] }] }).rightAsPlayed).toEqual([{ aspect: 'notes', kind: null, hand: null, notes: [], bars: [['7', '7']] }]);
    expect(readDecisions({ rightAsPlayed: [{ aspect: 'notes', bars: [['7'], ['9', '11']] }] }).rightAsPlayed[0]?.bars).toEqual([['7', '7'], ['9', '11']]);
  });

  it.each([
    ['no record', []], ['a third hand', { rightAsPlayed: [{ aspect: 'notes', hand: 'both' }] }], ['null', null], ['an unknown aspect', { left: [{ aspect: 'smell', kind: 'x' }] }], ['no list', { left: {} }], ['no kind', { left: [{ aspect: 'notes' }] }],
    ['an unknown strictness', { preferences: { strictness: { tempo: 'cruel' } } }], ['three bars', { rightAsPlayed: [{ aspect: 'notes', bars: ['1', '2', '3'] }] }],
  ])('%s is refused', (_, value) => {
    let refusal: unknown = null;
    try {
      readDecisions(value);
    } catch (error) {
      refusal = error;
    }
    expect(refusal).toBeInstanceOf(InputError);
    expect(refusal).toMatchObject({ code: 'bad-value' });
  });
});
