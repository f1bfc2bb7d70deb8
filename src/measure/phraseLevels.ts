/*
 * The teacher's question: is the phrase shaped, and how does it end?
 *
 * Conventions: velocity units as struck, louder positive; unfolded places; one entry each time a phrase was gone through.
 * Method: the notes of the tune from the first of a phrase to the last before the next one, by quarters of its written way. An ending is the
 *   last note of a phrase, or of a slur over three notes and more, held against the notes that lead to it in the tune.
 * Source: a phrase rises to its high point and falls to its end (common practice, no source); our own rule for the figures.
 * What it does not tell: whether another shape was meant; phrases that the analysis sees otherwise.
 */
import { firstIndex, measured, notMeasured, type Measured } from '../base/index.js';
import type { Analysis } from '../analysis/index.js';
import type { Score } from '../score/index.js';
import { echoLevels } from './echoes.js';
import { meanOf, type Struck, type StruckNotes } from './struck.js';
import { touchAsked } from './touchAsked.js';
import { membersByBar } from './tuneOver.js';
import type { BarTune } from './tuneLines.js';
import type { EndingLevel, PhraseFacts, PhraseLevel } from './phraseTypes.js';

/** A phrase's way is looked at in so many parts, each with so many notes at least (>=). */
const PARTS = 4;
const LEAST_PART_NOTES = 2;

/** Fewest notes (>=) of a phrase. */
const LEAST_NOTES = 4;

/** So many notes lead to an ending. */
const LEADING_NOTES = 3;

/** Slurs over fewer (<) notes end with every other note; what they ask is touch. */
const LEAST_SLUR_NOTES = 3;

/** The tune as it was struck. */
interface Tune {
  readonly score: Score;
  readonly notes: readonly Struck[];
  /** Place in `Analysis.phrases` of each note; -1 before the first. */
  readonly phrase: readonly number[];
}

/** Levels of all phrases and endings of the tune. */
export function phraseLevels(score: Score, { phrases }: Pick<Analysis, 'phrases'>, { struck, tunes }: { readonly struck: StruckNotes; readonly tunes: readonly BarTune[] }): PhraseFacts {
  const members = membersByBar(score, tunes);
  const notes = struck.notes.filter((note) => members.get(note.visitIndex)?.has(note.occurrence) === true);
  const writtenTick = ({ noteIndex }: Struck): number => score.notes[noteIndex]?.onsetTick ?? 0;
  const tune: Tune = { score, notes, phrase: notes.map((note) => firstIndex(phrases.length, (i) => (phrases[i]?.from.tick ?? Infinity) > writtenTick(note)) - 1) };
  const runs = runsOf(tune, writtenTick);
  return { phrases: runs.map(phraseLevel), echoes: echoLevels(score, notes), endings: endingsOf(tune, new Set(runs.flatMap(({ last }) => (last === null ? [] : [last])))) };
}

/** The notes of one phrase in one go. */
interface Run {
  readonly phrase: number;
  readonly notes: readonly Struck[];
  /** The last note, where the tune goes on into the next phrase or the piece ends; null where the playing broke off. */
  readonly last: Struck | null;
}

/** Cuts the tune into phrases; a jump, a repeat and a hole of another line begin a new one. */
function runsOf({ notes, phrase }: Tune, writtenTick: (note: Struck) => number): readonly Run[] {
  const runs: { phrase: number; notes: Struck[] }[] = [];
  notes.forEach((note, i) => {
    const before = notes[i - 1];
    const goesOn = before !== undefined && before.stretch === note.stretch && phrase[i] === phrase[i - 1] && writtenTick(before) < writtenTick(note);
    if (goesOn) runs.at(-1)?.notes.push(note);
    else runs.push({ phrase: phrase[i] ?? -1, notes: [note] });
  });
  return runs.filter((run) => run.phrase >= 0 && run.notes.length >= LEAST_NOTES).map((run, i, all) => {
    const next = all[i + 1];
    const goesOn = next === undefined || (next.phrase === run.phrase + 1 && next.notes[0]?.stretch === run.notes[0]?.stretch);
    return { ...run, last: goesOn ? (run.notes.at(-1) ?? null) : null };
  });
}

/** One phrase. */
function phraseLevel({ phrase, notes }: Run): PhraseLevel {
  const [first, last] = [notes[0], notes.at(-1)];
  if (first === undefined || last === undefined) throw new RangeError('a phrase without notes');
  const left = notes.filter(({ hand }) => hand === 'left').length;
  return {
    phrase, hand: 2 * left > notes.length ? 'left' : 'right', stretch: first.stretch, fromVisit: first.visitIndex, toVisit: last.visitIndex, startS: first.onsetS,
    notes: notes.length, level: levelOf(notes), quarters: quartersOf(notes, first.tick, last.tick),
  };
}

/** Mean velocity. */
function levelOf(notes: readonly Struck[]): number {
  return meanOf(notes.map(({ velocity }) => velocity));
}

/** Mean levels of the parts of a phrase's way. */
function quartersOf(notes: readonly Struck[], fromTick: number, toTick: number): Measured<readonly number[]> {
  const parts = Array.from({ length: PARTS }, (): Struck[] => []);
  for (const note of notes) parts[Math.min(PARTS - 1, Math.floor((PARTS * (note.tick - fromTick)) / Math.max(1, toTick - fromTick)))]?.push(note);
  return parts.some(({ length }) => length < LEAST_PART_NOTES) ? notMeasured('the phrase has too few notes') : measured(parts.map(levelOf));
}

/** Last notes of phrases and slurs, each with what leads to it. */
function endingsOf({ score, notes, phrase }: Tune, lasts: ReadonlySet<Struck>): readonly EndingLevel[] {
  const asked = touchAsked(score);
  return notes.flatMap((note, i): readonly EndingLevel[] => {
    const of = lasts.has(note) ? 'phrase' : (asked[note.noteIndex]?.slurEnds ?? 0) >= LEAST_SLUR_NOTES ? 'slur' : null;
    const leading = notes.slice(Math.max(0, i - LEADING_NOTES), i).filter((one, k, all) => one.stretch === note.stretch && one.hand === note.hand && phrase[i - all.length + k] === phrase[i]);
    const before = leading.at(-1);
    if (of === null || before === undefined || leading.length < LEADING_NOTES) return [];
    const { hand, stretch, visitIndex, noteIndex, onsetS: startS, velocity } = note;
    return [{
      of, hand, stretch, visitIndex, noteIndex, startS, overLast: velocity - before.velocity, overLoudest: velocity - Math.max(...leading.map((one) => one.velocity)),
      weak: note.tick !== score.order[visitIndex]?.startTick, longer: (note.endTick - note.tick) / Math.max(1, before.endTick - before.tick),
    }];
  });
}
