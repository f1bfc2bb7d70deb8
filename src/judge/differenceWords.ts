import { listInWords, timesInWords } from '../base/index.js';
import type { Alignment } from '../align/index.js';
import type { Recording } from '../recording/index.js';
import type { KeySignature, Pitch, Score } from '../score/index.js';
import { alterInKey, namePlayed, noteInWords, type NoteName } from './noteNames.js';

/** How a note is said to be missing. */
const MISSING = ' missing';

/** How a note is said to be there that is not written. */
const ADDED = ' added';

/** What a slip's words are made from. */
interface WordMaterial {
  readonly score: Score;
  readonly recording: Recording;
  readonly alignment: Alignment;
}

/** The parts of a slip that its words need. */
interface BareSlip {
  readonly kind: 'wrong' | 'missed' | 'added' | 'octave';
  readonly occurrence: number | null;
  readonly note: number | null;
}

/**
 * A slip in words, without its place: "G natural for G sharp", "B missing", "F sharp added", "D
 * an octave too low".
 */
export function differenceInWords(material: WordMaterial, slip: BareSlip): string {
  const written = writtenPitch(material, slip);
  if (slip.kind === 'missed') return (written === null ? 'a note' : noteInWords(written)) + MISSING;
  const midi = playedMidi(material, slip);
  if (slip.kind === 'octave' && written !== null) return `${noteInWords(written)} ${octaves(midi - written.midi)}`;
  const key = keyAt(material, slip);
  if (slip.kind === 'wrong' && written !== null) return wrongNote(midi, written, key);
  const played = namePlayed(midi, null, key);
  return `${noteInWords(played, alterInKey(played.step, key.fifths) !== 0)}${ADDED}`;
}

/** The ends of words that several notes may share: "E missing", "G an octave too low (twice)". */
const SHARED_END = /^(?<note>.+?)(?<end> missing| added| in another place| (?:an octave|\w+ octaves) too (?:high|low))(?: \((?<count>.+)\))?$/;

/** Slips that are told in the same words, but for the note and how often. */
interface ToldTogether {
  readonly notes: { readonly note: string; readonly count: string }[];
  readonly end: string;
}

/**
 * Several slips of one try in one line; what happened to several notes is told once, notes missing last: "E for D, G and A added (each
 * twice), B and C missing". A note that is missing and added too is in another place.
 */
export function slipsInWords(texts: readonly string[]): string {
  const groups = new Map<string, ToldTogether>();
  for (const text of counted(elsewhere(texts))) {
    const { note = text, end = '', count = '' } = SHARED_END.exec(text)?.groups ?? {};
    const group = groups.get(end === '' ? text : end);
    if (group === undefined) groups.set(end === '' ? text : end, { notes: [{ note, count }], end });
    else group.notes.push({ note, count });
  }
  const told = [...groups.values()];
  return [...told.filter(({ end }) => end !== MISSING), ...told.filter(({ end }) => end === MISSING)].map(togetherInWords).join(', ');
}

/** The same texts without how often. */
export function withoutCounts(texts: readonly string[]): readonly string[] {
  return texts.map((text) => text.replace(/ \([^)]*\)$/, ''));
}

/** Notes that are missing where they stand and added elsewhere in the bar. */
export function movedNotes(texts: readonly string[]): readonly string[] {
  return texts.filter((text) => text.endsWith(MISSING)).map((text) => text.slice(0, -MISSING.length)).filter((note) => texts.includes(note + ADDED));
}

/** "G added" and "G missing" are one slip: "G in another place". */
function elsewhere(texts: readonly string[]): readonly string[] {
  const moved = movedNotes(texts);
  if (moved.length === 0) return texts;
  return texts.flatMap((text) => (moved.some((note) => text === note + MISSING) ? [] : [moved.some((note) => text === note + ADDED) ? text.replace(ADDED, ' in another place') : text]));
}

/** The same words once, with how often. */
function counted(texts: readonly string[]): readonly string[] {
  return [...new Set(texts)].map((text) => {
    const count = texts.filter((other) => other === text).length;
    return count > 1 ? `${text} (${timesInWords(count)})` : text;
  });
}

/** "B and C missing", "D and F sharp an octave too low (each twice)", "B (twice) and A missing". */
function togetherInWords({ notes, end }: ToldTogether): string {
  const [first] = notes;
  if (end === '') return first?.note ?? '';
  if (notes.every(({ count }) => count === first?.count)) {
    const often = first?.count === undefined || first.count === '' ? '' : ` (${notes.length > 1 ? 'each ' : ''}${first.count})`;
    return `${listInWords(notes.map(({ note }) => note))}${end}${often}`;
  }
  return `${listInWords(notes.map(({ note, count }) => (count === '' ? note : `${note} (${count})`)))}${end}`;
}

/** "G natural for G sharp", "A for B", "C an octave too high". */
function wrongNote(midi: number, written: Pitch, key: KeySignature): string {
  if (midi !== written.midi && (midi - written.midi) % 12 === 0) return `${noteInWords(written)} ${octaves(midi - written.midi)}`;
  const played = namePlayed(midi, written, key);
  return `${noteInWords(played, sayNatural(played, written, key.fifths))} for ${noteInWords(written, sayNatural(written, played, key.fifths))}`;
}

/**
 * A natural is said where the other note has an accidental on the same letter, or the key
 * signature has.
 */
function sayNatural(name: NoteName, other: NoteName, fifths: number): boolean {
  const contrast = name.step === other.step && other.alter !== 0;
  return contrast || alterInKey(name.step, fifths) !== 0;
}

/** "an octave too high", "two octaves too low". */
function octaves(semitones: number): string {
  const count = Math.abs(semitones) / 12;
  return `${count === 1 ? 'an octave' : `${count === 2 ? 'two' : count} octaves`} too ${semitones > 0 ? 'high' : 'low'}`;
}

/** The written note that the slip stands at. */
function writtenPitch({ score }: WordMaterial, slip: BareSlip): Pitch | null {
  const occurrence = slip.occurrence === null ? undefined : score.occurrences[slip.occurrence];
  return occurrence === undefined ? null : (score.notes[occurrence.noteIndex]?.pitch ?? null);
}

/** The key pressed, the keyboard's transposition taken off. */
function playedMidi({ recording, alignment }: WordMaterial, slip: BareSlip): number {
  const note = slip.note === null ? undefined : recording.notes[slip.note];
  if (note === undefined) throw new RangeError('a slip of this kind needs the note that was played');
  return note.pitch - alignment.transposition;
}

/** Key signature where the slip stands; none where it stands nowhere. */
function keyAt({ score }: WordMaterial, slip: BareSlip): KeySignature {
  const occurrence = slip.occurrence === null ? undefined : score.occurrences[slip.occurrence];
  return score.bars[occurrence?.barIndex ?? -1]?.key ?? { fifths: 0, mode: null };
}
