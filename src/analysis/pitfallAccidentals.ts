/**
 * The question: where will an accidental be forgotten, or carried too far?
 * Conventions: an accidental holds for its letter, octave and stave to the end of the bar (notation).
 * Method: `holds`: a letter altered against the signature and met again in the bar a beat later or more; `lapses`: the
 * same letter and octave back in the signature's form in the same or the next bar. Which signs the edition prints as a
 * reminder is not known, so no sentence speaks of them.
 */
import { listInWords } from '../base/index.js';
import { beatTicks, type ScoreNote } from '../score/index.js';
import { alterInSignature, spellingInWords } from './noteNames.js';
import { handOfStaff, type OneHand } from './handLines.js';
import { between, groupsOf } from './pitfallWords.js';
import type { PitfallDraft, PitfallGround } from './pitfallTypes.js';

/** A place where an accidental holds or lapses. */
interface Accidental {
  readonly hand: OneHand;
  readonly fromBar: number;
  readonly toBar: number;
  /** "G sharp". */
  readonly altered: string;
  /** "G natural", or what the signature makes of it. */
  readonly plain: string;
}

/** The last altered form of a letter on a line. */
interface Altered {
  readonly note: ScoreNote;
  readonly plainAlter: number;
}

/** No more notes than this are named in one sentence. */
const MOST_NAMES = 3;

/** In how many places an accidental is as likely forgotten as it gets. */
const MANY_PLACES = 6;

/** Drafts of accidentals that hold and that lapse. */
export function accidentalPitfalls(ground: PitfallGround): readonly PitfallDraft[] {
  const { holds, lapses } = accidentals(ground);
  return [
    ...groupsOf(holds, (place) => place.hand).map(holding),
    ...groupsOf(lapses, (place) => `${place.hand} ${String(place.fromBar === place.toBar)}`).map(lapsing),
  ];
}

/** Walks through the written notes once, stave by stave. */
function accidentals({ score }: PitfallGround): { readonly holds: readonly Accidental[]; readonly lapses: readonly Accidental[] } {
  const holds: Accidental[] = [];
  const lapses: Accidental[] = [];
  const last = new Map<string, Altered>();
  const chords = chordTexts(score.notes);
  const follows = new Set(score.order.map((visit, i) => `${String(score.order[i - 1]?.barIndex)} ${String(visit.barIndex)}`));
  const sameChord = (a: ScoreNote, b: ScoreNote): boolean => (chords.get(strikeOf(a)) ?? '').includes(' ') && chords.get(strikeOf(a)) === chords.get(strikeOf(b));
  const beatOf = (barIndex: number): number => beatTicks(score, score.bars[barIndex] ?? { time: { beats: 4, beatType: 4, symbol: null } });
  for (const note of readNotes(score.notes)) {
    const line = `${String(note.staff)} ${note.pitch.step}${String(note.pitch.octave)}`;
    const before = last.get(line);
    const plainAlter = alterInSignature(note.pitch.step, score.bars[note.barIndex]?.key.fifths ?? 0);
    const distance = before === undefined ? Infinity : note.barIndex - before.note.barIndex;
    const later = before !== undefined && distance === 0 && note.onsetTick - before.note.onsetTick >= beatOf(note.barIndex);
    if (later && note.pitch.alter === before.note.pitch.alter && !sameChord(note, before.note)) holds.push(found(before, note));
    const next = distance === 0 || (distance === 1 && follows.has(`${String(note.barIndex - 1)} ${String(note.barIndex)}`));
    if (before !== undefined && next && before.plainAlter === plainAlter && note.pitch.alter === plainAlter) lapses.push(found(before, note));
    if (note.pitch.alter === plainAlter) last.delete(line);
    else last.set(line, { note, plainAlter });
  }
  return { holds, lapses };
}

/** The keys of every strike, by stave and moment: a chord that is only struck again is not read again. */
function chordTexts(notes: readonly ScoreNote[]): ReadonlyMap<string, string> {
  return new Map(groupsOf(notes, strikeOf).map((strike) => [strikeOf(strike[0]), strike.map((note) => note.pitch.midi).sort((a, b) => a - b).join(' ')]));
}

/** Stave and moment of a note. */
function strikeOf({ staff, onsetTick }: ScoreNote): string {
  return `${String(staff)} ${String(onsetTick)}`;
}

/** Notes that a pupil reads as new, in order of time: no ends of ties, no hidden or cue notes. */
function readNotes(notes: readonly ScoreNote[]): readonly ScoreNote[] {
  return notes.filter((note) => !note.tieStop && !note.hidden && !note.cue).toSorted((a, b) => a.onsetTick - b.onsetTick || a.pitch.midi - b.pitch.midi);
}

/** The record of a place. */
function found({ note, plainAlter }: Altered, later: ScoreNote): Accidental {
  return {
    hand: handOfStaff(note.staff),
    fromBar: note.barIndex,
    toBar: later.barIndex,
    altered: spellingInWords(note.pitch, true),
    plain: spellingInWords({ step: note.pitch.step, alter: plainAlter }, true),
  };
}

/** Accidentals of one hand that hold. */
function holding(group: readonly [Accidental, ...Accidental[]]): PitfallDraft {
  const [{ hand }] = group;
  const kinds = groupsOf(group, (place) => place.altered).toSorted((a, b) => b.length - a.length);
  const named = kinds.length > MOST_NAMES ? kinds.slice(0, MOST_NAMES - 1) : kinds;
  const names = listInWords([...named.map(([place]) => place.altered), ...(kinds.length > MOST_NAMES ? ['others'] : [])]);
  const plain = kinds.length > MOST_NAMES ? 'the signature has them' : listInWords(named.map(([place]) => place.plain));
  return {
    kind: 'accidentalHolds',
    hand,
    spots: group,
    severity: 0.3 + 0.3 * between(group.length, 1, MANY_PLACES),
    sentence: `${names} ${kinds.length === 1 ? 'comes' : 'come'} again later in the bar, and will be read the second time as ${plain}.`,
    practise: `Ring the later ${group.length === 1 ? 'one' : 'ones'}, and name ${group.length === 1 ? 'it' : 'them'} aloud before the bar.`,
  };
}

/** Accidentals of one hand that lapse. */
function lapsing(group: readonly [Accidental, ...Accidental[]]): PitfallDraft {
  const [first] = group;
  const pairs = groupsOf(group, (place) => place.altered).toSorted((a, b) => b.length - a.length);
  const [[most], ...others] = [pairs[0] ?? group, ...pairs.slice(1)];
  const also = others.slice(0, 1).map(([place]) => `, ${place.altered} by ${place.plain}`);
  const more = others.length > 1 ? ', and so on' : '';
  const within = first.fromBar === first.toBar;
  const where = within ? 'within the bar' : 'in the next bar';
  return {
    kind: 'accidentalLapses',
    hand: first.hand,
    spots: group,
    severity: (within ? 0.5 : 0.35) + 0.2 * between(group.length, 1, MANY_PLACES),
    sentence: `${most.altered} is followed by ${most.plain} ${where}${also.join('')}${more}, and the one will be played for the other.`,
    practise: 'Play the two notes back to back and name both, then read on from the bar before.',
  };
}
