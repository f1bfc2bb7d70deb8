/**
 * The question: where does a passage come back and go another way?
 * Conventions: a bar of one hand is the same where the same keys are struck at the same places in it.
 * Method: two bars (or more) that follow the same bar, begin with the same strike and then differ; fingers go on as they did before.
 * Bars of first and second endings are left out: there the brackets say it. Linear: each bar looks at its last few likes.
 * It does not tell returns in another key.
 */
import { BOTH_HANDS, type HandEvent, type OneHand } from './handLines.js';
import { spellingInWords } from './noteNames.js';
import { barsInWords } from './teachingNotesBars.js';
import { between, groupsOf } from './pitfallWords.js';
import type { PitfallDraft, PitfallGround } from './pitfallTypes.js';

/** How many earlier bars of the same content are compared, the latest first. */
const LATEST = 4;

/** Bars of the same content before the change, beyond which it is no likelier that fingers run on. */
const LONG_CONTEXT = 4;

/** Strikes that a single like bar before the change must have to count (inclusive). */
const LEAST_STRIKES = 3;

/** A bar that goes another way than its model. */
interface Turning {
  readonly hand: OneHand;
  readonly bar: number;
  readonly model: number;
  /** Bars before it that are the same as before the model. */
  readonly context: number;
  /** Place of the first strike that differs. */
  readonly strike: number;
  readonly key: string;
}

/** One hand's bars: what is struck, and a text that is equal for equal bars. */
interface HandBars {
  readonly hand: OneHand;
  readonly strikes: readonly (readonly string[])[];
  readonly events: readonly (readonly HandEvent[])[];
  readonly texts: readonly string[];
}

/** Drafts of changed returns. */
export function returnPitfalls(ground: PitfallGround): readonly PitfallDraft[] {
  return BOTH_HANDS.flatMap((hand) => {
    const bars = handBars(ground, hand);
    return groupsOf(turnings(ground, bars), (turning) => turning.key).map((group) => draft(ground, bars, group));
  });
}

/** What a hand strikes, bar by bar. */
function handBars({ score, lines }: PitfallGround, hand: OneHand): HandBars {
  const events: HandEvent[][] = score.bars.map(() => []);
  for (const event of lines[hand]) events[event.barIndex]?.push(event);
  const strikes = events.map((inBar, bar) => {
    const start = score.bars[bar]?.startTick ?? 0;
    return inBar.map((event) => `${String(event.onsetTick - start)}:${event.notes.map((one) => one.midi).join('+')}`);
  });
  return { hand, events, strikes, texts: strikes.map((bar) => bar.join(' ')) };
}

/** Every bar that turns away from its likeliest model. */
function turnings({ score }: PitfallGround, bars: HandBars): readonly Turning[] {
  const seen = new Map<string, number[]>();
  return bars.texts.flatMap((text, bar): readonly Turning[] => {
    const before = bars.texts[bar - 1] ?? '';
    const models = before === '' ? [] : (seen.get(before) ?? []);
    const found = models.slice(-LATEST).flatMap((model) => turning(bars, bar, model) ?? []);
    const same = models.some((model) => bars.texts[model] === text);
    if (before !== '') seen.set(before, [...models.slice(-LATEST), bar]);
    const ending = (index: number): boolean => (score.bars[index]?.endings.length ?? 0) > 0;
    const best = found.filter(({ model }) => !ending(model)).sort((a, b) => b.context - a.context || b.model - a.model)[0];
    return best === undefined || same || ending(bar) ? [] : [best];
  });
}

/** The turning of a bar away from one model, if the two begin alike. */
function turning(bars: HandBars, bar: number, model: number): Turning | null {
  const [now, then] = [bars.strikes[bar] ?? [], bars.strikes[model] ?? []];
  const strike = now.findIndex((text, i) => text !== then[i]);
  if (strike < 1 || then[strike] === undefined) return null;
  let context = 0;
  while (context < LONG_CONTEXT && model - context - 1 >= 0 && bars.texts[bar - context - 1] === bars.texts[model - context - 1] && bar - context - 1 > model) context += 1;
  const strikes = bars.strikes[bar - 1]?.length ?? 0;
  if (context < 2 && (context < 1 || strikes < LEAST_STRIKES)) return null;
  return { hand: bars.hand, bar, model, context, strike, key: `${bars.texts[bar] ?? ''} | ${bars.texts[model] ?? ''}` };
}

/** The draft of one turning, wherever it comes. */
function draft({ score, language }: PitfallGround, bars: HandBars, group: readonly [Turning, ...Turning[]]): PitfallDraft {
  const [{ bar, model, strike, context, hand }] = group;
  const share = strike / Math.max(1, bars.strikes[bar]?.length ?? 1);
  const [now, then] = [differs(bars, [bar, model], strike), differs(bars, [model, bar], strike)];
  const earlier = barsInWords(score, { fromBar: model, toBar: model }, language);
  const here = barsInWords(score, { fromBar: bar, toBar: bar }, language);
  const what = now === null || then === null || now === then ? 'goes on differently' : `goes to ${now} where that had ${then}`;
  return {
    kind: 'changedReturn',
    hand,
    spots: group.map((one) => ({ fromBar: one.bar, toBar: one.bar })),
    severity: 0.3 + 0.35 * between(context, 0, LONG_CONTEXT) + 0.35 * share,
    sentence: `The bar begins like ${earlier} but ${what}, and the fingers will play the old one.`,
    practise: `Play ${earlier} and ${here} one after the other, and name the difference before the second.`,
  };
}

/** Name of the first note of a strike that the other bar does not have there; null where the places differ. */
function differs({ events, strikes }: HandBars, [bar, other]: readonly [number, number], strike: number): string | null {
  const [here, there] = [events[bar]?.[strike], events[other]?.[strike]];
  const place = (at: number): string => strikes[at]?.[strike]?.split(':')[0] ?? '';
  if (here === undefined || there === undefined || place(bar) !== place(other)) return null;
  const keys = new Set(there.notes.map((one) => one.midi));
  const note = here.notes.find((one) => !keys.has(one.midi));
  return note === undefined ? null : spellingInWords(note.note.pitch);
}
