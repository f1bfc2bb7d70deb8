/** Hand-worked cases of single notes: what is written, what is struck, and what each key press must be called. */
import { describe, expect, it } from 'vitest';
import { alignRecording } from '../../src/align/index.js';
import { InputError } from '../../src/base/index.js';
import { keys, match, missed, recording, route, said, score } from './build.js';
import { names, plays, tune } from './tune.js';

const scale = score(['C4 D4 E4 F4', 'G4 A4 B4 C5']);

describe('one line', () => {
  it('pairs a plain scale note by note', () => {
    const matched = match(scale, keys(0, 0.5, 'C4 D4 E4 F4 G4 A4 B4 C5'));
    expect(said(matched)).toBe('r1-1 r1-2 r1-3 r1-4 r2-1 r2-2 r2-3 r2-4');
    expect(missed(matched)).toBe('');
    expect(route(matched)).toBe('1-2');
    expect(matched.alignment.matched).toBe(1);
  });

  it('calls a wrong note its written note missed and the press added in its place', () => {
    // F4 is written on the fourth beat, F#4 is struck
    const matched = match(scale, keys(0, 0.5, 'C4 D4 E4 F#4 G4 A4 B4 C5'));
    expect(said(matched)).toBe('r1-1 r1-2 r1-3 !r1-4 r2-1 r2-2 r2-3 r2-4');
    expect(missed(matched)).toBe('r1-4');
    // seven of eight presses are explained
    expect(matched.alignment.matched).toBe(7 / 8);
  });

  it('calls a wrong first and a wrong last note so as well', () => {
    const matched = match(scale, keys(0, 0.5, 'C#4 D4 E4 F4 G4 A4 B4 A#4'));
    expect(said(matched)).toBe('!r1-1 r1-2 r1-3 r1-4 r2-1 r2-2 r2-3 !r2-4');
    expect(missed(matched)).toBe('r1-1 r2-4');
  });

  it('lists a missed note', () => {
    const matched = match(scale, keys(0, 0.5, 'C4 D4 - F4 G4 A4 B4 C5'));
    expect(said(matched)).toBe('r1-1 r1-2 r1-4 r2-1 r2-2 r2-3 r2-4');
    expect(missed(matched)).toBe('r1-3');
  });

  it('names an added note by the nearest written one, which is not missed', () => {
    // C#5 is struck along with the B4 of bar 2, 20 ms later
    const matched = match(scale, keys(0, 0.5, 'C4 D4 E4 F4 G4 A4 B4 C5'), keys(3.02, 1, 'C#5'));
    expect(said(matched)).toBe('r1-1 r1-2 r1-3 r1-4 r2-1 r2-2 r2-3 +r2-3 r2-4');
    expect(missed(matched)).toBe('');
  });

  it('takes one of two presses where a note is struck twice', () => {
    // E4 repeated a tenth of a second later
    const matched = match(scale, keys(0, 0.5, 'C4 D4 E4 F4 G4 A4 B4 C5'), keys(1.1, 1, 'E4'));
    expect(said(matched)).toBe('r1-1 r1-2 r1-3 +r1-3 r1-4 r2-1 r2-2 r2-3 r2-4');
  });

  it('gives a written repetition its presses in order', () => {
    const matched = match(score(['C4 C4 C4 D4', 'E4 E4 F4 C4']), keys(0, 0.5, 'C4 C4 C4 D4 E4 E4 F4 C4'));
    expect(said(matched)).toBe('r1-1 r1-2 r1-3 r1-4 r2-1 r2-2 r2-3 r2-4');
  });

  it('pairs an octave slip of one note and says how far off it was', () => {
    // G4 an octave high, A4 an octave low
    const matched = match(scale, keys(0, 0.5, 'C4 D4 E4 F4 G5 A3 B4 C5'));
    expect(said(matched)).toBe('r1-1 r1-2 r1-3 r1-4 r2-1^1 r2-2^-1 r2-3 r2-4');
    expect(missed(matched)).toBe('');
  });
});

describe('notes together', () => {
  const chords = score([{ right: 'C4+E4+G4/2 D4+F4+A4/2', left: 'C3/2 F2/2' }, { right: 'B3+D4+G4/2 C4+E4+C5/2', left: 'G2/2 C3/2' }]);

  it('pairs the notes of spread chords in whatever order they come', () => {
    // the first from below upwards over 90 ms, the second from above downwards
    const matched = match(chords, keys(0, 0.03, 'C3 C4 E4 G4'), keys(1, 0.03, 'A4 F4 D4 F2'), keys(2, 1, 'G2+B3+D4+G4 C3+C4+E4+C5'));
    expect(said(matched)).toBe('l1-1 r1-1 r1-1b r1-1c r1-2c r1-2b r1-2 l1-2 l2-1 r2-1 r2-1b r2-1c l2-2 r2-2 r2-2b r2-2c');
  });

  it('misses one note of a chord alone', () => {
    const matched = match(chords, keys(0, 1, 'C3+C4+E4+G4 F2+D4+A4 G2+B3+D4+G4 C3+C4+E4+C5'));
    expect(missed(matched)).toBe('r1-2b');
  });

  it('asks for one sound where two voices share a key', () => {
    // both voices begin bar 1 and bar 2 on C4
    const voices = score([{ right: 'C4 E4 G4 E4', under: 'C4/4' }, { right: 'C4 F4 A4 G4', under: 'C4/4' }]);
    const matched = match(voices, keys(0, 0.5, 'C4 E4 G4 E4 C4 F4 A4 G4'));
    expect(said(matched)).toMatch(/^[ru]1-1 r1-2 r1-3 r1-4 [ru]2-1 r2-2 r2-3 r2-4$/);
    expect(missed(matched)).toBe('');
  });

  it('adds the second of two presses where two voices share a key: it is one sound', () => {
    const voices = score([{ right: 'C4 E4 G4 E4', under: 'C4/4' }, 'D4 F4 A4 G4']);
    const matched = match(voices, keys(0, 0.5, 'C4 E4 G4 E4 D4 F4 A4 G4'), keys(0.1, 1, 'C4'));
    expect(said(matched)).toMatch(/^[ru]1-1 \+[ru]1-1 r1-2 r1-3 r1-4 r2-1 r2-2 r2-3 r2-4$/);
  });

  it('misses the shared key once where it does not sound', () => {
    const voices = score([{ right: 'E4 C4 G4 E4', under: 'r C4/3' }, { right: 'D4 F4 A4 G4' }]);
    const matched = match(voices, keys(0, 0.5, 'E4 - G4 E4 D4 F4 A4 G4'));
    expect(missed(matched)).toMatch(/^[ru]1-2$/);
  });

  it('hears one sound in a tie, over the bar line as well', () => {
    const tied = score(['C4 D4 E4/2_', '_E4/2 F4 G4', 'A4/4_', '_A4 B4 C5/2']);
    const matched = match(tied, keys(0, 0.5, 'C4 D4 E4 - - - F4 G4 A4 - - - - B4 C5'));
    expect(said(matched)).toBe('r1-1 r1-2 r1-3 r2-2 r2-3 r3-1 r4-2 r4-3');
    expect(missed(matched)).toBe('');
  });
});

describe('small notes', () => {
  const decorated = score(['C4 grace:B4 C5 A4 F4', 'G4 E4 grace:D4 grace:E4 F4 C4']);

  it('pairs grace notes before the beat like any others', () => {
    const matched = match(decorated, keys(0, 0.5, 'C4 C5 A4 F4 G4 E4 F4 C4'), keys(0.42, 1, 'B4'), keys(2.84, 0.08, 'D4 E4'));
    expect(said(matched)).toBe('r1-1 r1-2 r1-3 r1-4 r1-5 r2-1 r2-2 r2-3 r2-4 r2-5 r2-6');
  });

  it('pairs grace notes on the beat, their main note late', () => {
    const matched = match(decorated, keys(0, 0.5, 'C4 B4 A4 F4 G4 E4 D4 C4'), keys(0.58, 1, 'C5'), keys(3.08, 0.08, 'E4 F4'));
    expect(said(matched)).toBe('r1-1 r1-2 r1-3 r1-4 r1-5 r2-1 r2-2 r2-3 r2-4 r2-5 r2-6');
  });

  it('misses a grace note that is left out', () => {
    const matched = match(decorated, keys(0, 0.5, 'C4 C5 A4 F4 G4 E4 F4 C4'), keys(2.84, 0.08, 'D4 E4'));
    expect(missed(matched)).toBe('r1-2');
  });

  it('pairs one press of a trill with its note and gives the rest to the ornament', () => {
    const trilled = score(['C4 D4 E4tr/2', 'F4 G4 A4 B4']);
    // E4 F4 E4 F4 … eight presses in a second, then straight on
    const matched = match(trilled, keys(0, 0.5, 'C4 D4'), keys(1, 0.125, 'E4 F4 E4 F4 E4 F4 E4 F4'), keys(2, 0.5, 'F4 G4 A4 B4'));
    expect(said(matched)).toBe('r1-1 r1-2 r1-3 ~r1-3 ~r1-3 ~r1-3 ~r1-3 ~r1-3 ~r1-3 ~r1-3 r2-1 r2-2 r2-3 r2-4');
    expect(matched.alignment.matched).toBe(1);
  });

  it('takes a trill from above as right', () => {
    const trilled = score(['C4 D4 E4tr/2', 'A4 G4 F4 B4']);
    const matched = match(trilled, keys(0, 0.5, 'C4 D4'), keys(1, 0.125, 'F4 E4 F4 E4 F4 E4 F4 E4'), keys(2, 0.5, 'A4 G4 F4 B4'));
    const words = said(matched).split(' ');
    expect(words.slice(2, 10).filter((word) => word === 'r1-3')).toHaveLength(1);
    expect(words.slice(2, 10).filter((word) => word === '~r1-3')).toHaveLength(7);
    expect(missed(matched)).toBe('');
  });

  it('never misses cue notes, and takes them as right where they are struck', () => {
    const cued = score([{ right: 'C4 D4 E4 F4' }, { right: 'G4 A4 r r', under: 'r r cue:B4 cue:C5' }, { right: 'D5 C5 A4 F4' }]);
    const silent = match(cued, keys(0, 0.5, 'C4 D4 E4 F4 G4 A4 - - D5 C5 A4 F4'));
    expect(said(silent)).toBe('r1-1 r1-2 r1-3 r1-4 r2-1 r2-2 r3-1 r3-2 r3-3 r3-4');
    expect(missed(silent)).toBe('');
    const struck = match(cued, keys(0, 0.5, 'C4 D4 E4 F4 G4 A4 B4 C5 D5 C5 A4 F4'));
    // they belong to the note they are played over, like the notes of an ornament, and are nobody's slip
    expect(said(struck)).toBe('r1-1 r1-2 r1-3 r1-4 r2-1 r2-2 ~r2-2 ~r2-2 r3-1 r3-2 r3-3 r3-4');
    expect(missed(struck)).toBe('');
  });

  it('explains nothing by cue notes of a bar that was not played', () => {
    // breaks off after bar 1; the stray B is written small in bar 2, where the route never comes
    const cued = score([{ right: 'C4 D4 E4 F4' }, { right: 'G4 A4 r r', under: 'r r cue:B4 cue:C5' }, { right: 'D5 C5 A4 F4' }]);
    const { alignment } = match(cued, keys(0, 0.5, 'C4 D4 E4 F4 B4'));
    expect(alignment.route).toHaveLength(1);
    expect(alignment.route[0]).toMatchObject({ fromVisit: 0, toVisit: 0 });
    expect(alignment.ornaments).toEqual([]);
    expect(alignment.added.map((one) => one.note)).toEqual([4]);
  });
});

describe('little or nothing', () => {
  it('refuses a score of rests alone', () => {
    const silent = score(['r/4', 'r/4']);
    expect(() => alignRecording(silent, recording(keys(0, 0.5, 'C4')))).toThrow(InputError);
    expect(() => alignRecording(silent, recording(keys(0, 0.5, 'C4')))).toThrow(expect.objectContaining({ code: 'no-notes' }));
  });

  it('bears a recording of one note and of none', () => {
    expect(said(match(scale, keys(3, 1, 'C4')))).toBe('r1-1');
    const none = match(scale);
    expect(none.alignment).toEqual({ pairs: [], missed: [], added: [], ornaments: [], route: [], hands: 'both', transposition: 0, matched: 0 });
  });

  it('bears a score of one note', () => {
    expect(said(match(score(['C4/4']), keys(0, 1, 'C4')))).toBe('r1-1');
  });

  it('gives the same answer twice and leaves its inputs as they were', () => {
    const once = match(tune(), plays(1, 4, 0), plays(3, 8, 9.5));
    const before = JSON.stringify([once.score, once.recording]);
    expect(alignRecording(once.score, once.recording)).toEqual(once.alignment);
    expect(JSON.stringify([once.score, once.recording])).toBe(before);
    expect(said(once)).toBe(`${names(1, 4)} ${names(3, 4, { attempt: 2 })} ${names(5, 8)}`);
  });
});
