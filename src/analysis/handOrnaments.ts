/**
 * The question: how could this ornament be played at the tempo?
 * Conventions: note names in order, the written note's own place in the list included.
 * Method: neighbours by the key signature, by signs for the same letter in the bar so far, and in a known minor key with
 * the raised leading note below the tonic. Trills begin above, on the beat, as was the rule to about 1830; a mordent goes
 * down and back, an inverted mordent up and back, a turn above, note, below, note (common practice; shapes as the
 * MusicXML names mean them). An appoggiatura without a stroke takes half of its note.
 * It does not know small accidentals printed over or under the sign; so a sentence may only say "could".
 */
import { spotOf, type HandContext } from './handContext.js';
import { alterInSignature, pitchClass, spellingInWords, STEPS, type Spelling } from './noteNames.js';
import { BOTH_HANDS, type HandEvent, type HandNote } from './handLines.js';
import type { HandPlace, OrnamentSign } from './handTypes.js';
import type { ScoreNote } from '../score/index.js';

/** Notes a second of an unhurried trill. Common practice, no source. */
const TRILL_PER_SECOND = 8;

/** Quicker than this nobody's ornament speaks, notes a second (exclusive). Common practice, no source. */
const FASTEST_PER_SECOND = 13;

/** A trill is written out up to so many notes; a longer one goes on. */
const LONGEST_TRILL = 8;

/** Signs that can be written out. */
const SIGNS: ReadonlySet<string> = new Set<OrnamentSign>(['trill', 'mordent', 'invertedMordent', 'turn', 'invertedTurn', 'delayedTurn']);

/** The neighbours of a note. */
interface Neighbours {
  readonly above: string;
  readonly note: string;
  readonly below: string;
}

/** Ornament signs and long grace notes of either hand: one place each. */
export function ornaments(context: HandContext): readonly HandPlace[] {
  const byBar = notesByBar(context);
  const graces = longGraces(context);
  return BOTH_HANDS.flatMap((hand) =>
    context.lines[hand].flatMap((event) =>
      event.notes.flatMap((one) => [...signed(context, event, { one, inBar: byBar.get(event.barIndex) ?? [] }), ...appoggiatura(event, one, graces)]),
    ),
  );
}

/** The place of a note with a sign. */
function signed(context: HandContext, event: HandEvent, { one, inBar }: { readonly one: HandNote; readonly inBar: readonly ScoreNote[] }): readonly HandPlace[] {
  const sign = one.note.ornaments.find(isWrittenOut);
  if (sign === undefined) return [];
  const seconds = context.tempo.secondsBetween(one.onsetTick, one.endTick);
  const around: Neighbours = {
    above: neighbour(context, { note: one.note, inBar, by: 1 }),
    note: spellingInWords(one.note.pitch),
    below: neighbour(context, { note: one.note, inBar, by: -1 }),
  };
  const names = sign === 'trill' ? trill(around, seconds) : SHAPES[sign](around);
  const goesOn = sign === 'trill' && seconds * TRILL_PER_SECOND > LONGEST_TRILL;
  const spot = { ...spotOf(event), notes: [one.note.index] };
  return [{ ...spot, kind: 'ornament', sign, names, goesOn, fits: names.length <= seconds * FASTEST_PER_SECOND }];
}

/** Every sign but the trill, as it goes. */
const SHAPES: Readonly<Record<Exclude<OrnamentSign, 'trill' | 'appoggiatura'>, (around: Neighbours) => readonly string[]>> = {
  mordent: ({ note, below }) => [note, below, note],
  invertedMordent: ({ note, above }) => [note, above, note],
  turn: ({ above, note, below }) => [above, note, below, note],
  invertedTurn: ({ above, note, below }) => [below, note, above, note],
  delayedTurn: ({ above, note, below }) => [note, above, note, below, note],
};

/** A trill from above: as many pairs as there is time for, two at least. */
function trill({ above, note }: Neighbours, seconds: number): readonly string[] {
  const pairs = Math.min(LONGEST_TRILL / 2, Math.max(2, Math.floor((seconds * TRILL_PER_SECOND) / 2)));
  return Array.from({ length: pairs * 2 }, (_, i) => (i % 2 === 0 ? above : note));
}

/** A long grace note before a note. */
function appoggiatura(event: HandEvent, one: HandNote, graces: ReadonlyMap<string, ScoreNote>): readonly HandPlace[] {
  const grace = graces.get(voiceAt(one.note));
  if (grace === undefined || one.note.index !== event.notes.find((each) => each.note.voice === one.note.voice)?.note.index) return [];
  const names = [spellingInWords(grace.pitch), spellingInWords(one.note.pitch)];
  return [{ ...spotOf(event), notes: [grace.index, one.note.index], kind: 'ornament', sign: 'appoggiatura', names, goesOn: false, fits: true }];
}

/** Name of the note a step above or below. */
function neighbour({ score, harmony }: HandContext, { note, inBar, by }: { readonly note: ScoreNote; readonly inBar: readonly ScoreNote[]; readonly by: 1 | -1 }): string {
  const step = STEPS[(STEPS.indexOf(note.pitch.step) + by + 7) % 7] ?? note.pitch.step;
  const nearby = inBar.filter((other) => other.pitch.step === step && other.staff === note.staff && other.onsetTick <= note.onsetTick);
  const inKey: Spelling = { step, alter: nearby[nearby.length - 1]?.pitch.alter ?? alterInSignature(step, score.bars[note.barIndex]?.key.fifths ?? 0) };
  const tonic = minorTonicAt(harmony, note.onsetTick);
  const leads = by === -1 && tonic === pitchClass(note.pitch) && (tonic - pitchClass(inKey) + 12) % 12 === 2;
  return spellingInWords(leads ? { step, alter: inKey.alter + 1 } : inKey);
}

/** Notes that are played, by bar, in order of time. */
function notesByBar({ score }: HandContext): ReadonlyMap<number, readonly ScoreNote[]> {
  const bars = new Map<number, ScoreNote[]>();
  for (const note of score.notes.toSorted((a, b) => a.onsetTick - b.onsetTick)) {
    const bar = bars.get(note.barIndex);
    if (bar === undefined) bars.set(note.barIndex, [note]);
    else bar.push(note);
  }
  return bars;
}

/** Single grace notes without a stroke, by the voice and moment of their main note. */
function longGraces({ score }: HandContext): ReadonlyMap<string, ScoreNote> {
  const graces = new Map<string, ScoreNote>();
  const several = new Set<string>();
  for (const note of score.notes) {
    if (note.grace === null || note.cue || note.hidden) continue;
    const at = voiceAt(note);
    if (graces.has(at) || note.grace.after || note.grace.slash || note.grace.before !== 1) several.add(at);
    graces.set(at, note);
  }
  for (const at of several) graces.delete(at);
  return graces;
}

/** A voice at a moment. */
function voiceAt(note: ScoreNote): string {
  return `${note.staff} ${note.voice} ${note.onsetTick}`;
}

/** True for signs that can be written out. */
function isWrittenOut(sign: string): sign is Exclude<OrnamentSign, 'appoggiatura'> {
  return SIGNS.has(sign);
}

/** The tonic of the minor key at a written tick, or null where the key is major or not known. */
function minorTonicAt(harmony: HandContext['harmony'], tick: number): number | null {
  const key = harmony?.keys.find((span) => span.fromTick <= tick && tick < span.toTick);
  return key?.mode === 'minor' ? key.tonic : null;
}
