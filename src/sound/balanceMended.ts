/*
 * The balance mended: the accompaniment comes down where it covers the tune, inner notes of chords where they cover the top.
 *
 * Conventions: velocity units; only how hard keys are struck is changed, and only in bars that fall short of what is usual. The tune rises by
 *   what the accompaniment cannot come down.
 * Source: the tune stands 10 to 20 units over its accompaniment (trade texts), a chord's top 5 to 10 over its inner notes (common practice); the
 *   lower ends are taken.
 * What it does not tell: which line the player wanted to be heard.
 */
import { countInWords, groupBy } from '../base/index.js';
import { handOf, type Hand, type LevelFacts, type TuneSpan } from '../measure/index.js';
import { versionOf } from './draft.js';
import { placesOf } from './places.js';
import type { Change, SoundInput, Version } from './types.js';
import { struckPlaces, withLevels } from './velocities.js';

/** What a tune should stand over its accompaniment at least, and a chord's top over its inner notes, velocity units. */
const TUNE_OVER = 10;
const TOP_OVER = 5;

/** Velocity units that make a step of the marks, p to mp (common practice, no source). */
const STEP_UNITS = 5;

/** The accompaniment takes up to this much of the change, velocity units; the rest the tune. Our own rule. */
const MOST_DOWN = 25;

/** Her playing with the tune over its accompaniment where that was remarked on. */
export function balanceMended(input: SoundInput): Version {
  const { levels } = input.measures;
  const places = placesOf(input.observations, 'balance');
  const units = new Map<number, number>();
  const changes: Change[] = [];
  if (levels.measured && places.some(({ kind }) => kind !== 'chordsNotVoiced')) {
    for (const { barIndex, startS, hand, need, notes } of shortBars(input, levels.value, places)) {
      for (const { note, tune } of notes) units.set(note, tune ? Math.max(0, need - MOST_DOWN) : -Math.min(need, MOST_DOWN));
      changes.push({ barIndex, startS, text: `the ${hand === 'right' ? 'left' : 'right'} hand would be softer by ${stepsInWords(need)}` });
    }
  }
  if (levels.measured && places.some(({ kind }) => kind === 'chordsNotVoiced')) {
    for (const [note, down] of innerNotes(input)) units.set(note, (units.get(note) ?? 0) + down);
    const first = places.find(({ kind }) => kind === 'chordsNotVoiced');
    changes.push({ barIndex: first?.fromBar ?? 0, startS: first?.startS ?? 0, text: 'the top notes of the right hand’s chords would be heard over the others' });
  }
  return versionOf('balance', input.recording, { notes: withLevels(input, units), changes });
}

/** A bar in which the tune stands too little over the rest. */
interface ShortBar {
  readonly barIndex: number;
  readonly startS: number;
  /** The hand that has the tune. */
  readonly hand: Hand;
  readonly need: number;
  readonly notes: readonly { readonly note: number; readonly tune: boolean }[];
}

/** The bars that fall short: the remarked ones, or all where the remark is on the whole piece. */
function shortBars(input: SoundInput, levels: LevelFacts, places: ReturnType<typeof placesOf>): readonly ShortBar[] {
  const { score, measures } = input;
  const everywhere = places.some(({ kind }) => kind === 'coveredThroughout' || kind === 'handsAlike');
  const byVisit = groupBy(struckPlaces(input), ({ stretch, occurrence }) => `${stretch} ${score.occurrences[occurrence]?.visitIndex}`);
  return measures.bars.flatMap((bar, i): readonly ShortBar[] => {
    const over = levels.bars[i]?.tuneOver;
    const tune = tuneAt(levels.balance.tune, score.order[bar.visitIndex]?.startTick ?? 0);
    const remarked = everywhere || places.some(({ fromBar, toBar, pass, attempt, kind }) => kind === 'tuneCovered' && fromBar <= bar.barIndex && bar.barIndex <= toBar && bar.pass === pass && bar.attempt === attempt);
    if (over?.measured !== true || tune === undefined || !remarked || over.value >= TUNE_OVER) return [];
    const notes = (byVisit.get(`${bar.stretch} ${bar.visitIndex}`) ?? []).flatMap(({ note, occurrence }) => {
      const written = score.occurrences[occurrence];
      return written === undefined ? [] : [{ note, tune: handOf(written) === tune.hand }];
    });
    return [{ barIndex: bar.barIndex, startS: bar.startS, hand: tune.hand, need: TUNE_OVER - over.value, notes }];
  });
}

/** The line that has the tune at a tick. */
function tuneAt(spans: readonly TuneSpan[], tick: number): TuneSpan | undefined {
  return spans.find(({ fromTick, toTick }) => fromTick <= tick && tick < toTick);
}

/** Inner notes of the right hand's chords by how much softer they become. */
function innerNotes(input: SoundInput): readonly (readonly [note: number, units: number])[] {
  const { score, alignment, recording } = input;
  const right = alignment.pairs.filter(({ occurrence }) => score.occurrences[occurrence]?.staff === 1);
  const chords = [...groupBy(right, ({ stretch, occurrence }) => `${stretch} ${score.occurrences[occurrence]?.onsetTick}`).values()].filter((chord) => chord.length > 2);
  return chords.flatMap((chord) => {
    const struck = chord.flatMap(({ note }) => recording.notes[note] ?? []);
    const top = struck.reduce((a, b) => (b.pitch > a.pitch ? b : a));
    const inner = struck.filter((note) => note !== top);
    return inner.filter(({ velocity }) => velocity > top.velocity - TOP_OVER).map((note) => [note.index, top.velocity - TOP_OVER - note.velocity] as const);
  });
}

/** "about one step, as from mf to mp"; "about five steps". A step is one of the printed marks. */
function stepsInWords(units: number): string {
  const steps = Math.max(1, Math.round(units / STEP_UNITS));
  const like = LIKE_STEPS[steps - 1];
  return `about ${countInWords(steps)} step${steps === 1 ? '' : 's'} of loudness${like === undefined ? '' : `, as from ${like}`}`;
}

/** Marks that stand one, two and three steps apart. */
const LIKE_STEPS: readonly string[] = ['mf to mp', 'f to mp', 'f to p'];
