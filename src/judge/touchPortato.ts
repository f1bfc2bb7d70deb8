/*
 * Portato (dots under a slur, or line and dot) and tenuto lines: are they carried?
 *
 * What is a fault: a portato as short as a staccato, or joined as in legato; a note with a line as short as a staccato. Portato lasts three
 * quarters of its value, staccato half, tenuto all of it (manuals, common practice). Portato is told by the finger, since under the pedal
 * only its attack can be judged: there nothing is said. Tenuto is told by the ear. Notes of less than `QUICK_S` are short with any touch,
 * and repeated notes need their gap. Where one passage of them is off, it is told; a single note is no word worth.
 */
import { median } from 'simple-statistics';
import { groupBy } from '../base/index.js';
import { HANDS, PEDAL_LINGERS, type BarFacts, type Hand, type MarkedTouch, type NoteLength } from '../measure/index.js';
import { heldFinding, percent, type HeldGround, type HeldNote } from './heldNotes.js';
import { lapses, type LapseRule } from './lapses.js';
import { isLong } from './lengthsShort.js';
import { DOT_SHARE, DOT_SLOW_S } from './touchDots.js';
import type { Finding } from './types.js';

/** Share of the written value that a portato lasts, and a tenuto (manuals, common practice). */
const PORTATO_SHARE = 0.75;
const TENUTO_SHARE = 1;

/** Notes written for less (<) than this are short with any touch, seconds: staccato and portato differ by less than 75 ms there. Our own rule. */
const QUICK_S = 0.3;

/** So many of so many are heard as one thing: dots come in rows, lines one or two at a time. Our own rules. */
const PORTATO_RULE: LapseRule = { least: 3, share: 0.6 };
const TENUTO_RULE: LapseRule = { least: 2, share: 0.6 };

/** How far beyond its threshold a portato that is joined is put, as far as a dot that lasts its whole value: there is no more or less of it. Our own rule. */
const JOINED_RATIO = 2;

/** How sure the program is: professionals take both signs freely. */
const CONFIDENCE = 0.8;

/** One chord that is to be carried. */
export interface Carried {
  readonly bar: BarFacts;
  readonly hand: Hand;
  /** Share of what it should last: of a portato what the key was down, of a tenuto what was heard; of its longest note. */
  readonly share: number;
  /** True for a note that is short with any touch. */
  readonly quick: boolean;
  /** A portato that runs on into the next note. */
  readonly joined: boolean;
  readonly notes: readonly HeldNote[];
}

/** Every chord with a portato sign that the fingers alone decided. */
export function portatosOf(ground: HeldGround): readonly Carried[] {
  return carried(ground, 'portato').filter(({ notes }) => notes.every(isDry));
}

/** Every chord with a line, long notes left out: those are judged by their lengths. */
export function tenutosOf(ground: HeldGround): readonly Carried[] {
  return carried(ground, 'tenuto').filter(({ notes }) => !notes.some((one) => isLong(ground, one)));
}

/** Chords with one sign. */
function carried({ notes }: HeldGround, touch: MarkedTouch): readonly Carried[] {
  const marked = notes.filter(({ asked }) => asked.touch === touch);
  return [...groupBy(marked, ({ chord }) => chord).values()].flatMap((chord): readonly Carried[] => {
    const [first] = chord;
    const lengths = chord.flatMap(({ holding: { length } }) => (length.measured ? [length.value] : []));
    if (first === undefined || lengths.length === 0) return [];
    const share = Math.max(...lengths.map(touch === 'portato' ? keyShare : soundShare));
    return [{ bar: first.bar, hand: first.hand, share, quick: lengths.every(({ writtenS }) => writtenS < QUICK_S), joined: runsOn(chord), notes: chord }];
  });
}

/** Share of a slow note's first part, or of the whole note, for which its key was down. */
function keyShare({ keyS, writtenS }: NoteLength): number {
  return keyS / Math.min(writtenS, DOT_SLOW_S);
}

/** Share of a note for which it was heard. */
function soundShare({ soundS, writtenS }: NoteLength): number {
  return soundS / writtenS;
}

/** True for a note that no pedal carried on. */
function isDry({ holding: { length, join } }: HeldNote): boolean {
  return length.measured && length.value.soundS <= length.value.keyS && !(join.measured && join.value.pedal >= PEDAL_LINGERS);
}

/** True where every note of a chord is still down as the next comes: no gap at all, where the smallest would do. */
function runsOn(chord: readonly HeldNote[]): boolean {
  return chord.every(({ holding: { join } }) => join.measured && !join.value.repeated && join.value.overlapS >= 0);
}

/** Passages of portato that are short or joined, and of lines that are short, each hand by itself. */
export function carriedFindings(ground: HeldGround, { portatos, tenutos }: { readonly portatos: readonly Carried[]; readonly tenutos: readonly Carried[] }): readonly Finding[] {
  return HANDS.flatMap((hand) => [
    ...shortOnes(ground, portatos.filter((one) => one.hand === hand), { kind: 'portatoShort', expected: PORTATO_SHARE, rule: PORTATO_RULE }),
    ...joinedOnes(ground, portatos.filter((one) => one.hand === hand)),
    ...shortOnes(ground, tenutos.filter((one) => one.hand === hand), { kind: 'tenutoShort', expected: TENUTO_SHARE, rule: TENUTO_RULE }),
  ]);
}

/** What is asked of signs that are too short. */
interface Asked {
  readonly kind: string;
  readonly expected: number;
  readonly rule: LapseRule;
}

/** Bars in which they last no more (<=) than a staccato. */
function shortOnes(ground: HeldGround, own: readonly Carried[], { kind, expected, rule }: Asked): readonly Finding[] {
  const trials = own.filter(({ quick }) => !quick).map((one) => ({ ...one, bad: one.share <= DOT_SHARE }));
  return lapses(trials, rule).map(({ bar, bad }) => {
    const share = median(bad.map((one) => one.share));
    return heldFinding(ground, {
      aspect: 'touch', kind, hand: bad[0]?.hand ?? null, bar, notes: bad.flatMap(({ notes }) => notes), value: percent(share), unit: '%', threshold: percent(DOT_SHARE),
      ratio: (expected - share) / (expected - DOT_SHARE), confidence: CONFIDENCE,
    });
  });
}

/** Bars in which a portato runs on. */
function joinedOnes(ground: HeldGround, own: readonly Carried[]): readonly Finding[] {
  return lapses(own.map((one) => ({ ...one, bad: one.joined })), PORTATO_RULE).map(({ bar, bad, all }) => heldFinding(ground, {
    aspect: 'touch', kind: 'portatoJoined', hand: bad[0]?.hand ?? null, bar, notes: bad.flatMap(({ notes }) => notes), value: percent(bad.length / all.length), unit: '%', threshold: percent(PORTATO_RULE.share),
    ratio: JOINED_RATIO, confidence: CONFIDENCE,
  }));
}
