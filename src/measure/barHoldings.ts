/*
 * The teacher's question: how were notes held and joined in this bar, each hand by itself?
 *
 * Conventions: one entry a visit to a bar, parallel to `Measures.bars`; shares are plain numbers, 1 is as written.
 * Method: medians of the notes that begin in the visit; a join counts as joined where the gap is below `JOINED_GAP_S`, and of
 *   double notes one voice joined is enough.
 * Source: gaps below 30 ms pass as legato (teachers' common practice); staccato as a share of the written value (manuals, common practice).
 * What it does not tell: whether that is right; a bar under the pedal is told by its fingers all the same.
 */
import { median } from 'simple-statistics';
import { groupBy, measured, notMeasured, type Measured } from '../base/index.js';
import { HANDS, handOf, type Hand } from './hands.js';
import type { BarHolding, HandHolding, NoteHolding, SilenceFacts } from './holdingTypes.js';
import { writtenOf, type Piece } from './piece.js';
import type { TouchAsked } from './touchAsked.js';
import type { BarFacts } from './types.js';

/** A gap shorter (<) than this passes as legato, seconds: teachers' common practice. */
export const JOINED_GAP_S = 0.03;

/** What the bars are told from. */
export interface Holdings {
  readonly notes: readonly NoteHolding[];
  readonly silences: readonly SilenceFacts[];
  readonly asked: readonly TouchAsked[];
}

/** A note with what is asked of it. */
interface Held extends NoteHolding {
  readonly asked: TouchAsked;
  /** Written moment: notes of one hand with the same are one chord. */
  readonly tick: number;
}

/** Both hands in every visit to a bar. */
export function barHoldings(piece: Piece, bars: readonly BarFacts[], holdings: Holdings): readonly BarHolding[] {
  const notes = groupBy(heldNotes(piece, holdings), ({ key }) => key);
  const rests = groupBy(restsOf(piece, holdings.silences), ({ key }) => key);
  return bars.map(({ stretch, visitIndex }) => {
    const [right, left] = HANDS.map((hand) => {
      const key = keyOf(stretch, visitIndex, hand);
      return handHolding((notes.get(key) ?? []).map(({ held }) => held), (rests.get(key) ?? []).map(({ share }) => share));
    });
    if (right === undefined || left === undefined) throw new RangeError('there are two hands');
    return { right, left };
  });
}

/** Names one hand in one visit. */
function keyOf(stretch: number, visit: number, hand: Hand): string {
  return `${stretch} ${visit} ${hand}`;
}

/** Every note with its place. */
function heldNotes({ score, alignment }: Piece, { notes, asked }: Holdings): readonly { readonly key: string; readonly held: Held }[] {
  return notes.flatMap((holding) => {
    const pair = alignment.pairs[holding.pair];
    if (pair === undefined) return [];
    const { occurrence } = writtenOf(score, pair.occurrence);
    const touch = asked[occurrence.tied.at(-1) ?? occurrence.noteIndex];
    if (touch === undefined) return [];
    return [{ key: keyOf(pair.stretch, occurrence.visitIndex, handOf(occurrence)), held: { ...holding, asked: touch, tick: occurrence.endTick } }];
  });
}

/** Every rest of a stave, with the share of it that a key stayed down. */
function restsOf({ score, alignment }: Piece, silences: readonly SilenceFacts[]): readonly { readonly key: string; readonly share: number }[] {
  return silences.flatMap(({ stretch, staff, lastPair, heldS, fromS, toS }) => {
    const pair = alignment.pairs[lastPair];
    if (staff === null || pair === undefined) return [];
    const { occurrence } = writtenOf(score, pair.occurrence);
    return [{ key: keyOf(stretch, occurrence.visitIndex, handOf(occurrence)), share: heldS / (toS - fromS) }];
  });
}

/** One hand. */
function handHolding(notes: readonly Held[], rests: readonly number[]): HandHolding {
  const lengths = notes.flatMap(({ length, asked }) => (length.measured ? [{ ...length.value, touch: asked.touch }] : []));
  const whole = lengths.filter(({ touch }) => touch === null || touch === 'slurred' || touch === 'tenuto');
  const dotted = lengths.filter(({ touch }) => touch === 'staccato');
  return {
    keyShare: middle(whole.map(({ keyS, writtenS }) => keyS / writtenS), 'this hand has no note here that is to be held for its full length'),
    soundShare: middle(whole.map(({ soundS, writtenS }) => soundS / writtenS), 'this hand has no note here that is to be held for its full length'),
    joined: joinedShare(notes),
    dots: middle(dotted.map(({ keyS, writtenS }) => keyS / writtenS), 'this hand has no note with a dot here'),
    restHeld: rests.length === 0 ? notMeasured('this hand has no rest here') : measured(rests.reduce((most, share) => Math.max(most, share), 0)),
  };
}

/** Median, or why there is none. */
function middle(values: readonly number[], reason: string): Measured<number> {
  return values.length === 0 ? notMeasured(reason) : measured(median([...values]));
}

/** Share of the joins under slurs that were made. */
function joinedShare(notes: readonly Held[]): Measured<number> {
  const joins = notes.flatMap(({ join, asked, tick }) => (join.measured && asked.joined && !join.value.repeated ? [{ tick, joined: join.value.overlapS > -JOINED_GAP_S }] : []));
  const chords = [...groupBy(joins, ({ tick }) => tick).values()];
  if (chords.length === 0) return notMeasured('this hand has no slurred notes here');
  return measured(chords.filter((chord) => chord.some(({ joined }) => joined)).length / chords.length);
}
