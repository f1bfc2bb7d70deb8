/*
 * Question: what does one harmony say: root, name, bass, degree, members, foreign notes, and how sure are we?
 * Conventions: see types.ts. Confidence is the share of the sounding time that the chord holds, less MISSING_CHARGE for every
 *   member that never sounds.
 * Source: our own rule.
 * What it does not tell: how another analyst would have cut it.
 */
import type { Score } from '../score/index.js';
import { degreeOf, isDiatonic, type Degree } from './degrees.js';
import { spellingIn, spellingInKey, type Draft } from './draft.js';
import { nonChordNotes } from './nonChord.js';
import { fifthsName, mod } from './pitchNames.js';
import { TEMPLATES } from './templates.js';
import type { ChordMember, HarmonicFunction, Harmony, Members, Quality } from './types.js';

/** What each missing member takes off the confidence. */
const MISSING_CHARGE = 0.12;

/** Below this confidence (exclusive) no root is claimed. */
const LEAST_CONFIDENCE = 0.45;

const MEMBERS: readonly ChordMember[] = ['root', 'third', 'fifth', 'seventh', 'ninth'];

/** What stands behind a root for qualities that the search does not know. */
const OTHER_SUFFIXES: Readonly<Partial<Record<Quality, string>>> = {
  dominantNinth: '9', dominantMinorNinth: '7b9', openFifth: '5', italianSixth: ' It6', germanSixth: ' Ger6', frenchSixth: ' Fr6',
};

/** The record of a draft. `next` is the harmony after it. */
export function nameHarmony(score: Score, draft: Draft, next: Draft | null): Harmony {
  const chord = withOpenFifth(draft);
  const members = membersOf(chord);
  const confidence = confidenceOf(chord, members);
  const base = { ...placeOf(score, chord), ...bassOf(chord), confidence };
  if (confidence < LEAST_CONFIDENCE) return { ...base, ...NOTHING };
  const rootFifths = spellingIn(chord, chord.root) ?? spellingInKey(chord.key, chord.root);
  const degree = degreeOf(chord, rootFifths, next);
  return {
    ...base,
    root: chord.root,
    rootName: fifthsName(rootFifths),
    quality: chord.quality,
    inversion: inversionOf(chord),
    degree: degree.text,
    function: functionOf(chord, degree),
    borrowed: isBorrowed(chord),
    members,
    nonChordNotes: nonChordNotes(chord, next),
    name: chordName(chord, rootFifths),
  };
}

/** What is said where no root can be told. */
const NOTHING = {
  root: null, rootName: '', quality: 'none', inversion: null, degree: '', function: 'none', borrowed: false,
  members: { sounding: [], missing: [], late: [] }, nonChordNotes: [], name: '',
} as const;

/** Where a harmony stands. */
function placeOf(score: Score, { from, to, barIndex }: Draft): Pick<Harmony, 'fromTick' | 'toTick' | 'barIndex' | 'offset'> {
  const start = score.bars[barIndex]?.startTick ?? 0;
  return { fromTick: from, toTick: to, barIndex, offset: (from - start) / score.ticksPerQuarter };
}

/** The bass, spelled. */
function bassOf({ lowest }: Draft): Pick<Harmony, 'bass' | 'bassName'> {
  return lowest === null ? { bass: null, bassName: '' } : { bass: lowest.pc, bassName: fifthsName(lowest.fifths) };
}

/** A triad with root and fifth but no third is named as what it is. */
function withOpenFifth(draft: Draft): Draft {
  const sounds = (member: number): boolean => draft.notes.some((note) => note.pc === draft.members[member]);
  const triad = draft.quality === 'major' || draft.quality === 'minor';
  return triad && sounds(0) && sounds(2) && !sounds(1) ? { ...draft, quality: 'openFifth' } : draft;
}

/** Which members sound, never sound, or first sound later than a beat into the harmony. */
function membersOf({ members, notes, from, beat }: Draft): Members {
  const sounding: ChordMember[] = [];
  const missing: ChordMember[] = [];
  const late: ChordMember[] = [];
  members.forEach((pc, i) => {
    const member = MEMBERS[i] ?? 'ninth';
    const first = notes.reduce((earliest, note) => (note.pc === pc ? Math.min(earliest, note.onset) : earliest), Infinity);
    if (first === Infinity) missing.push(member);
    else sounding.push(member);
    if (first !== Infinity && first >= from + beat) late.push(member);
  });
  return { sounding, missing, late };
}

/** Share of sounding time explained, less what is missing. */
function confidenceOf({ notes, members, from, to }: Draft, { missing }: Members): number {
  const lengths = notes.map((note) => Math.min(note.end, to) - Math.max(note.onset, from));
  const total = lengths.reduce((sum, length) => sum + length, 0);
  const held = notes.reduce((sum, note, i) => sum + (members.includes(note.pc) ? (lengths[i] ?? 0) : 0), 0);
  return total === 0 ? 0 : Math.max(0, held / total - MISSING_CHARGE * missing.length);
}

/** Place of the bass among the members; the cadential six-four stands on its root. */
function inversionOf({ members, lowest }: Draft): number | null {
  const place = lowest === null ? -1 : members.indexOf(lowest.pc);
  return place < 0 ? null : place;
}

/** What a chord does, by its step. */
function functionOf({ quality }: Draft, { step, alter, applied, text }: Degree): HarmonicFunction {
  if (applied) return 'appliedDominant';
  if (quality === 'italianSixth' || quality === 'germanSixth' || quality === 'frenchSixth' || text.startsWith('N')) return 'predominant';
  if (alter !== 0) return step === 2 || step === 5 ? 'tonicSubstitute' : 'chromatic';
  return (['tonic', 'predominant', 'tonicSubstitute', 'predominant', 'dominant', 'tonicSubstitute', 'dominant'] as const)[step] ?? 'chromatic';
}

/** Whether a major key takes the chord from its parallel minor: foreign to the one, at home in the other. */
function isBorrowed({ key, members, quality }: Draft): boolean {
  if (key.mode === 'minor' || quality === 'italianSixth' || quality === 'germanSixth' || quality === 'frenchSixth') return false;
  return !isDiatonic(members, key.tonic, 'major') && isDiatonic(members, key.tonic, 'minor');
}

/** "G7", "Bm/D", "A5". An augmented sixth is named after its bass degree, where it stands. */
function chordName(chord: Draft, rootFifths: number): string {
  const named = OTHER_SUFFIXES[chord.quality];
  const suffix = named ?? TEMPLATES.find((template) => template.quality === chord.quality)?.suffix ?? '';
  const bass = chord.lowest;
  const sixth = chord.quality === 'italianSixth' || chord.quality === 'germanSixth' || chord.quality === 'frenchSixth';
  if (sixth) return `${fifthsName(spellingIn(chord, mod(chord.key.tonic + 8, 12)) ?? chord.key.fifths - 4)}${suffix}`;
  const over = bass === null || bass.pc === chord.root ? '' : `/${fifthsName(bass.fifths)}`;
  return `${fifthsName(rootFifths)}${suffix}${over}`;
}
