/*
 * Wrong notes righted: what was played instead of a written note gets its pitch, what was added goes, what was left out comes in.
 *
 * Conventions: only these notes are touched; a righted note keeps its time and level. A note that comes in stands where its moment was reached, as
 *   loud as its neighbours in the hand. Notes before and after the music stay, and so does everything that a stop or a return swallowed.
 * Source: our own rule.
 * What it does not tell: whether the edition is the player's.
 */
import { median } from 'simple-statistics';
import { namePlayed, noteInWords } from '../judge/index.js';
import { handOf, momentsOf, type Moments } from '../measure/index.js';
import type { Occurrence } from '../score/index.js';
import { draftOf, endsBefore, REPEAT_GAP_S, versionOf, type DraftNote } from './draft.js';
import type { Change, SoundInput, Version } from './types.js';

/** Neighbours on either side in the hand that tell how loud a note comes in. */
const NEIGHBOURS = 4;

/** Level of a note that has no neighbours, velocity: mezzo-forte as the MusicXML examples have it (84 % of 90). */
const ALONE = 76;

/** Her playing with the written notes. */
export function notesRighted(input: SoundInput): Version {
  const { alignment, recording } = input;
  const pitches = new Map<number, number>();
  const gone = new Set<number>();
  for (const { note, near, instead, stretch } of alignment.added) {
    const written = near === null ? undefined : input.score.occurrences[near];
    if (written === undefined || stretch === null) continue;
    if (instead) pitches.set(note, written.midi + alignment.transposition);
    else gone.add(note);
  }
  for (const { note, octaveSlip } of alignment.pairs) if (octaveSlip !== 0) pitches.set(note, (recording.notes[note]?.pitch ?? 0) - 12 * octaveSlip);
  const kept = draftOf(recording).filter(({ from }) => from === null || !gone.has(from));
  const righted = kept.map((note) => ({ ...note, pitch: pitches.get(note.from ?? -1) ?? note.pitch }));
  const news = missing(input, righted);
  const notes = [...righted, ...news.map(({ note }) => note)];
  const endOf = endsBefore(notes);
  const fitted = notes.map((note) => (note.from === null || pitches.has(note.from) ? { ...note, releaseS: endOf(note, note.releaseS) } : makesRoom(note, news)));
  return versionOf('notes', recording, { notes: fitted, changes: [...changesOf(input), ...news.map(({ change }) => change)] });
}

/** A note that comes in, and what it does. */
interface News {
  readonly note: DraftNote;
  readonly change: Change;
}

/** What was left out within what was played of each stretch. */
function missing(input: SoundInput, notes: readonly DraftNote[]): readonly News[] {
  const { alignment, score } = input;
  const moments = momentsOf(input);
  const replaced = new Set(alignment.added.flatMap(({ instead, near, stretch }) => (instead ? [`${stretch} ${near}`] : [])));
  const reach = alignment.route.map((_, stretch) => {
    const ticks = alignment.pairs.flatMap((pair) => (pair.stretch === stretch ? [score.occurrences[pair.occurrence]?.onsetTick ?? 0] : []));
    return { from: Math.min(...ticks), to: Math.max(...ticks) };
  });
  return alignment.missed.flatMap(({ occurrence, stretch }): readonly News[] => {
    const written = score.occurrences[occurrence];
    const own = reach[stretch];
    const moment = moments[stretch];
    if (written === undefined || own === undefined || moment === undefined || replaced.has(`${stretch} ${occurrence}`)) return [];
    if (written.onsetTick < own.from || written.onsetTick > own.to) return [];
    return comingIn(input, { written, stretch, moment, notes });
  });
}

/** What a note comes in among. */
interface Gap {
  readonly written: Occurrence;
  readonly stretch: number;
  readonly moment: Moments;
  readonly notes: readonly DraftNote[];
}

/** One note at its moment; nothing where that cannot be told, or where its key is down already. */
function comingIn(input: SoundInput, { written, stretch, moment, notes }: Gap): readonly News[] {
  const hand = handOf(written);
  const [onsetS, endS] = [moment(written.onsetTick, hand), moment(written.endTick, hand)];
  const pitch = written.midi + input.alignment.transposition;
  if (onsetS === null || notes.some((other) => other.pitch === pitch && Math.abs(other.onsetS - onsetS) < REPEAT_GAP_S)) return [];
  const releaseS = endS !== null && endS > onsetS ? endS : onsetS + REPEAT_GAP_S;
  const note = { from: null, onsetS, releaseS, pitch, velocity: levelAt(input, { written, stretch }), releaseVelocity: null, hanging: false };
  const name = input.score.notes[written.noteIndex]?.pitch;
  return [{ note, change: { barIndex: written.barIndex, startS: onsetS, text: `the ${name === undefined ? 'note' : noteInWords(name)} that was left out would be there` } }];
}

/** Middle level of the notes around a written one in its hand. */
function levelAt({ score, alignment, recording }: SoundInput, { written, stretch }: Pick<Gap, 'written' | 'stretch'>): number {
  const own = alignment.pairs.filter((pair) => {
    const other = score.occurrences[pair.occurrence];
    return pair.stretch === stretch && other !== undefined && handOf(other) === handOf(written);
  });
  const distance = (occurrence: number): number => Math.abs((score.occurrences[occurrence]?.onsetTick ?? 0) - written.onsetTick);
  const near = own.toSorted((a, b) => distance(a.occurrence) - distance(b.occurrence)).slice(0, 2 * NEIGHBOURS);
  return near.length === 0 ? ALONE : Math.round(median(near.map(({ note }) => recording.notes[note]?.velocity ?? ALONE)));
}

/** A key that is still down when it should be struck comes up before that. */
function makesRoom(note: DraftNote, news: readonly News[]): DraftNote {
  const next = news.find(({ note: { pitch, onsetS } }) => pitch === note.pitch && onsetS > note.onsetS && onsetS < note.releaseS);
  return next === undefined ? note : { ...note, releaseS: Math.max(note.onsetS + REPEAT_GAP_S, next.note.onsetS - REPEAT_GAP_S) };
}

/** What each righted note would do. */
function changesOf({ score, alignment, recording }: SoundInput): readonly Change[] {
  const slips = alignment.pairs.flatMap(({ note, occurrence, octaveSlip }) => (octaveSlip === 0 ? [] : [{ note, near: occurrence, kind: 'octave' as const }]));
  const added = alignment.added.flatMap(({ note, near, instead, stretch }) => (near === null || stretch === null ? [] : [{ note, near, kind: instead ? 'wrong' as const : 'added' as const }]));
  return [...slips, ...added].flatMap(({ note, near, kind }) => {
    const [struck, written] = [recording.notes[note], score.occurrences[near]];
    const bar = score.bars[written?.barIndex ?? -1];
    const name = score.notes[written?.noteIndex ?? -1]?.pitch;
    if (struck === undefined || bar === undefined || name === undefined) return [];
    const played = noteInWords(namePlayed(struck.pitch - alignment.transposition, kind === 'wrong' ? name : null, bar.key), true);
    const text = { wrong: `${noteInWords(name, true)} would be heard in place of ${played}`, added: `the extra ${played} would be gone`, octave: `the ${noteInWords(name)} would be in its own octave` }[kind];
    return [{ barIndex: bar.index, startS: struck.onsetS, text }];
  });
}
