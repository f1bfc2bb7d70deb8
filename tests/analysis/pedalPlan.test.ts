import { describe, expect, it } from 'vitest';
import { planPedal, type PedalPlan } from '../../src/analysis/index.js';
import type { Score } from '../../src/score/index.js';
import { score, type WrittenBar } from '../align/build.js';
import { direction } from '../score/build.js';
import { analysed } from './harmonies.js';

const foot = (type: string, sound = ''): string => direction(`<pedal type="${type}" line="yes"/>`, sound);
const words = (text: string): string => direction(`<words>${text}</words>`);

/** A bass that has to be left: the fifth and tenth above lie more than a ninth from it. */
const left = (bass: string, upper: string): string => `${bass} ${upper} ${upper} ${upper}`;
const LEFT_C = left('C2', 'G3+E4');
const LEFT_F = left('F2', 'A3+F4');

/** "3 change" and "4+2 up": place and kind of every entry. */
function said(written: Score, plan: PedalPlan): string[] {
  return plan.entries.map(({ barIndex, offset, kind }) => `${written.bars[barIndex]!.number}${offset === 0 ? '' : `+${offset}`} ${kind}`);
}

const plan = (written: Score, ...texts: readonly string[]): PedalPlan => planPedal(written, analysed(written, texts), []);

describe('marks of the score', () => {
  it('press, change and release where they stand', () => {
    const written = score([{ left: 'C3/4', before: foot('start') }, { left: 'F3/4', before: foot('change') }, { left: 'C3/4', after: foot('stop') }, { left: 'C3/4' }]);
    const found = plan(written, '1 C', '2 F', '3 C');
    expect(said(written, found)).toEqual(['1 down', '2 change', '4 up']);
    expect(found.entries.map(({ source }) => source)).toEqual(['printed', 'printed', 'printed']);
    expect(found.basis).toBe('printed');
  });

  it('a star and a new Ped. within a beat are one legato change', () => {
    // the star stands on beat 4 of bar 1, the next Ped. on beat 1 of bar 2: a beat apart
    const written = score([{ left: 'C4 C4 C4', before: foot('start'), after: foot('stop') + '<note><rest/><duration>24</duration><voice>5</voice><staff>2</staff></note>' }, { left: 'F3/4', before: foot('start'), after: foot('stop') }]);
    expect(said(written, plan(written, '1 C', '2 F'))).toEqual(['1 down', '2 change']);
  });

  it('a release a bar before the next press leaves the foot up between', () => {
    const written = score([{ left: 'C3/4', before: foot('start'), after: foot('stop') }, { left: 'C3/4' }, { left: 'C3/4', before: foot('start'), after: foot('stop') }]);
    expect(said(written, plan(written, '1 C'))).toEqual(['1 down', '2 up', '3 down']);
  });

  it('continue, discontinue and resume move no foot (MusicXML 4.0)', () => {
    const written = score([{ left: 'C3/4', before: foot('start') }, { left: 'C3/4', before: foot('continue') }, { left: 'C3/4', before: foot('discontinue') }, { left: 'C3/4', before: foot('resume'), after: foot('stop') }]);
    expect(said(written, plan(written, '1 C'))).toEqual(['1 down']);
  });

  it('says when the harmony changes under a long one', () => {
    const written = score([{ left: 'C3/4', before: foot('start') }, { left: 'F3/4', after: foot('stop') }]);
    expect(plan(written, '1 C', '2 F').entries[0]!.reason).toMatch(/may be taken in fractions/);
    expect(plan(written, '1 C').entries[0]!.reason).toBe('marked: C major');
  });

  it('leaves what is silent for longer to the harmony', () => {
    const written = score([{ left: 'C3/4', before: foot('start'), after: foot('stop') }, ...[LEFT_F, LEFT_C, LEFT_F].map((text) => ({ left: text }))]);
    const found = plan(written, '1 C', '2 F', '3 C', '4 F');
    expect(said(written, found)).toEqual(['1 down', '2 change', '3 change', '4 change']);
    expect(found.entries.map(({ source }) => source)).toEqual(['printed', 'harmony', 'harmony', 'harmony']);
    expect(found.basis).toBe('both');
  });

  it('half pedal is told by the depth that the file gives', () => {
    const written = score([{ left: 'C3/4', before: foot('start', '<sound damper-pedal="50"/>'), after: foot('stop') }]);
    expect(plan(written, '1 C').entries[0]!.reason).toBe('marked, half pedal: C major');
  });
});

describe('where the score is silent', () => {
  it('changes with each harmony whose bass has to be left', () => {
    const written = score([{ left: LEFT_C }, { left: LEFT_F }, { left: LEFT_C }]);
    const found = plan(written, '1 C', '2 F', '3 C');
    expect(said(written, found)).toEqual(['1 down', '2 change', '3 change']);
    expect(found.entries[1]!.reason).toBe('new harmony: F major; only the pedal keeps the low F');
    // the low F (MIDI 41) takes 0.2-0.3 s to clear (teaching practice); nothing has to be cleared at the first press
    expect(found.entries.map(({ clearS }) => clearS)).toEqual([null, 0.25, 0.25]);
  });

  it('keeps down through an inversion', () => {
    const written = score([{ left: LEFT_C }, { left: left('E2', 'C4+G4') }, { left: LEFT_F }]);
    expect(said(written, plan(written, '1 C', '2 C/E', '3 F'))).toEqual(['1 down', '3 change']);
  });

  it('changes where major turns to minor over one root', () => {
    const written = score([{ left: LEFT_C }, { left: left('C2', 'G3+Eb4') }]);
    expect(said(written, plan(written, '1 C', '2 Cm'))).toEqual(['1 down', '2 change']);
  });

  it('changes no more than once a beat', () => {
    const written = score([{ left: LEFT_C }, { left: 'F2 A3+F4/0.5 G3+F4/0.5 A3+F4 A3+F4' }]);
    // the harmony of half a beat at 1.5 is passed over; the one on the next beat is taken
    expect(said(written, plan(written, '1 C', '2 F', '2+1.5 G7', '2+2 C'))).toEqual(['1 down', '2 change', '2+2 change']);
  });

  it('stays away from a staccato accompaniment', () => {
    const dots = (text: string): WrittenBar => ({ left: text });
    const plain = score([dots(LEFT_C), dots(LEFT_F)]);
    const written: Score = { ...plain, notes: plain.notes.map((note) => ({ ...note, articulations: ['staccato'] })) };
    const found = plan(written, '1 C', '2 F');
    expect(said(written, found)).toEqual(['1 none']);
    expect(found.entries[0]!.reason).toBe('the accompaniment is staccato');
    expect(found.basis).toBe('none');
  });

  it('stays away from a run low down', () => {
    const written = score([{ left: LEFT_C }, { left: 'C2/0.25 D2/0.25 E2/0.25 F2/0.25 G2/0.25 A2/0.25 B2/0.25 C3/0.25 G3/2' }, { left: LEFT_C }]);
    expect(said(written, plan(written, '1 C', '2 F', '3 C'))).toEqual(['1 down', '2 none', '3 down']);
  });

  it('lifts for a rest of both hands', () => {
    const written = score([{ right: 'E5/4', left: LEFT_C }, { right: 'C5/2 r/2', left: 'F2 A3+F4 r/2' }, { right: 'E5/4', left: LEFT_C }]);
    const found = plan(written, '1 C', '2 F', '3 C');
    expect(said(written, found)).toEqual(['1 down', '2 change', '2+2 up', '3 down']);
    expect(found.entries[2]!.reason).toMatch(/silent/);
  });

  it('asks for nothing where the hand holds its bass', () => {
    const written = score(['C3 E3 G3 E3', 'D3 F3 A3 F3'].map((text) => ({ right: 'C5/4', left: text })));
    const found = plan(written, '1 C', '2 Dm');
    expect(said(written, found)).toEqual(['1 none']);
    expect(found.basis).toBe('none');
  });

  it('presses for a single bass that is left in dry music', () => {
    const dry = Array.from({ length: 7 }, () => 'C3 G3 C3 G3');
    const lefts = [...dry.slice(0, 4), LEFT_F, ...dry.slice(4)];
    const hairpin = direction('<wedge type="crescendo"/>');
    const modern = score(lefts.map((text, i) => ({ right: 'C5/4', left: text, ...(i === 0 ? { before: hairpin } : {}) })));
    const chordNames = ['1 C', '2 F', '3 C', '4 G', '5 F', '6 C', '7 G', '8 C'];
    expect(said(modern, plan(modern, ...chordNames))).toEqual(['1 none', '5 down', '6 none']);
    // a page that may be from before 1800 stays dry, and so does one whose composer's dates end before
    const old = score(lefts.map((text) => ({ right: 'C5/4', left: text })));
    expect(said(old, plan(old, ...chordNames))).toEqual(['1 none']);
    const dated: Score = { ...modern, composer: 'Ansgar Made-Up (1702-1771)' };
    expect(said(dated, plan(dated, ...chordNames))).toEqual(['1 none']);
  });
});

describe('held chords on a later page', () => {
  it('take the pedal from harmony to harmony; on an older page they stay dry', () => {
    // three pitch classes a bar, the left hand sounding all the time; the hairpin makes the page a later one
    const bars = ['C3 E3 G3 E3', 'F3 A3 C4 A3'].map((text, i) => ({ right: 'C5/4', left: text, ...(i === 0 ? { before: direction('<wedge type="crescendo"/>') } : {}) }));
    const later = score(bars);
    expect(said(later, plan(later, '1 C', '2 F'))).toEqual(['1 down', '2 change']);
    const older: Score = { ...later, directions: [] };
    expect(said(older, plan(older, '1 C', '2 F'))).toEqual(['1 none']);
  });
});

describe('ringing and words', () => {
  it('lets an open fifth of whole bars ring', () => {
    const written = score([{ left: LEFT_C }, { left: 'A2+E3/4' }, { left: LEFT_C }]);
    const found = plan(written, '1 C', '2 A5', '3 C');
    expect(said(written, found)).toEqual(['1 down', '2 ring', '3 change']);
    expect(found.entries[1]!.reason).toBe('open fifth on A, long and open: let it ring');
  });

  it('lets ring where the page says so, two bars long', () => {
    const written = score([{ left: 'C3/4', before: words('lasciar vibrare') }, { left: 'F3/4' }, { left: 'C3 E3 G3 E3' }, { left: 'C3 E3 G3 E3' }]);
    expect(said(written, plan(written, '1 C', '2 F', '3 C', '4 F'))).toEqual(['1 ring', '3 none']);
  });

  it('pedals throughout where the page says con pedale, dry after senza pedale', () => {
    const alberti = 'C3 E3 G3 E3';
    const written = score([{ left: alberti, before: words('con pedale') }, { left: 'F3 A3 C4 A3' }, { left: alberti, before: words('senza pedale') }]);
    expect(said(written, plan(written, '1 C', '2 F', '3 C'))).toEqual(['1 down', '2 change', '3 none']);
  });

  it('knows a note marked to ring', () => {
    const plain = score([{ left: 'C3/4' }]);
    const written: Score = { ...plain, notes: plain.notes.map((note) => ({ ...note, letRing: true })) };
    expect(said(written, plan(written, '1 C'))).toEqual(['1 ring']);
  });
});

describe('the record', () => {
  it('covers the piece without gaps, each entry with its name and reason', () => {
    const written = score([{ right: 'r/4' }, { left: LEFT_C }, { left: LEFT_F }]);
    const { entries } = plan(written, '2 C', '3 F');
    expect(entries[0]).toMatchObject({ fromTick: 0, kind: 'none', id: 'pedal-0-0' });
    expect(entries.map(({ toTick }) => toTick)).toEqual([...entries.slice(1).map(({ fromTick }) => fromTick), 3 * 4 * written.ticksPerQuarter]);
    expect(new Set(entries.map(({ id }) => id)).size).toBe(entries.length);
    expect(entries.every(({ reason }) => reason !== '')).toBe(true);
  });

  it('is empty for a score of rests', () => {
    expect(plan(score(['r/4']))).toEqual({ entries: [], basis: 'none' });
  });
});
