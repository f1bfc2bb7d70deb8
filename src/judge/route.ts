/*
 * The route: going back, bars left out, repeats not taken.
 *
 * What is a fault: going back is practising as often as stumbling, so once is hardly worth a word; again and again at one
 * place it says that the bar before is not learned (common practice, no source). A repeat left out is a remark, not a fault.
 * A section alone or one hand alone is a way to work: the route tells it and nobody is blamed.
 */
import { groupBy, measured, timesInWords, word } from '../base/index.js';
import { barNames } from '../score/index.js';
import { slipsByVisit, visitKey } from './differences.js';
import { observe, type Untold } from './merge.js';
import { placesInWords } from './placeWords.js';
import { strandsOf, type Strand } from './strands.js';
import type { AspectJudgement, Finding, FoundPlace, JudgeInput, Told } from './types.js';
import { concernOf, severityOf } from './weight.js';

/** A place that was gone back from so often (>=) has not been learned. */
const STUCK_TIMES = 2;

/** What going back once weighs against going back again and again. */
const ONCE = 0.5;

/** Each further bar left out counts half. */
const FURTHER_BAR = 0.5;

/** What a repeat not taken weighs: said, not blamed. */
const REPEAT_SEVERITY = 0.3;

/** A strand and the one it broke off from. */
interface Turn {
  readonly before: Strand;
  readonly strand: Strand;
}

/** Judges the route. */
export function judgeRoute(input: JudgeInput): AspectJudgement {
  const turns = turnsOf(strandsOf(input.score, input.alignment, input.recording.notes.map(({ onsetS }) => onsetS)));
  const back = turns.filter((turn) => brokenOff(input, turn));
  const findings = [...goingBack(back), ...turns.flatMap((turn) => leftOut(input, turn))];
  const observations = observe(input, findings, (untold) => tell(input, untold, back));
  const times = back.length;
  const summary = times === 0 ? 'Straight on, without going back.' : `Went back ${timesInWords(times)}.`;
  return { aspect: 'route', concern: measured(concernOf(observations.map(({ weight }) => weight))), summary, observations };
}

/** Every strand but the first, with the one before it. */
function turnsOf(strands: readonly Strand[]): readonly Turn[] {
  return strands.slice(1).flatMap((strand, i) => {
    const before = strands[i];
    return before === undefined ? [] : [{ before, strand }];
  });
}

/** True where the pupil broke off and went back; not where the piece had come to its end, nor where the other hand takes its turn. */
function brokenOff({ score }: JudgeInput, { before, strand }: Turn): boolean {
  return strand.arrival === 'back' && strand.hands === before.hands && before.toVisit < score.order.length - 1;
}

/** Goings-back, by the bar where the playing broke off. */
function goingBack(back: readonly Turn[]): readonly Finding[] {
  return [...groupBy(back, ({ before }) => before.toBar)].flatMap(([bar, group]) =>
    group.map((turn): Finding => ({
      aspect: 'route',
      kind: 'goingBack',
      hand: null,
      place: { ...placeOf(turn.before), fromBar: bar, toBar: bar },
      measured: { value: group.length, unit: group.length === 1 ? 'time' : 'times', threshold: STUCK_TIMES },
      severity: group.length < STUCK_TIMES ? ONCE * severityOf(1) : severityOf(group.length / STUCK_TIMES),
      confidence: 1,
      topic: String(bar),
    })));
}

/** Bars jumped over, or a repeat not taken. */
function leftOut({ score }: JudgeInput, { before, strand }: Turn): readonly Finding[] {
  if (strand.arrival !== 'on' && strand.arrival !== 'repeatLeftOut') return [];
  const visits = score.order.slice(before.toVisit + 1, strand.fromVisit);
  const bars = visits.map(({ barIndex }) => barIndex);
  const first = bars[0] ?? before.toBar;
  const repeat = strand.arrival === 'repeatLeftOut' || visits.every(({ pass }) => pass > 1);
  const place = { fromBar: bars.reduce((a, b) => Math.min(a, b), first), toBar: bars.reduce((a, b) => Math.max(a, b), first), pass: visits[0]?.pass ?? 1, attempt: 1, notes: [], startS: before.endS };
  return [{
    aspect: 'route', kind: repeat ? 'repeatLeftOut' : 'barsLeftOut', hand: null, place,
    measured: { value: bars.length, unit: bars.length === 1 ? 'bar' : 'bars', threshold: 1 },
    severity: repeat ? REPEAT_SEVERITY : severityOf(1 + FURTHER_BAR * (bars.length - 1)),
    confidence: 1,
    topic: String(first),
  }];
}

/** The last bar of a strand, at the moment it broke off. */
function placeOf(strand: Strand): FoundPlace {
  return { fromBar: strand.toBar, toBar: strand.toBar, pass: 1, attempt: 1, notes: [], startS: strand.endS };
}

/** The sentence of one observation. */
function tell(input: JudgeInput, untold: Untold, back: readonly Turn[]): Told {
  const bars = placesInWords(input, untold.places);
  if (untold.kind === 'repeatLeftOut') return { text: `The repeat of ${bars} was not taken.`, advice: '' };
  if (untold.kind === 'barsLeftOut') return { text: `Left out: ${bars}.`, advice: `Play from the ${word('bar', input.language)} before into it.` };
  return tellGoingBack(input, back.filter(({ before }) => String(before.toBar) === untold.topic));
}

/** "Went back to bar 19 twice, from bar 22, where the left hand had slipped. Start at bar 21, then play through once without stopping." */
function tellGoingBack(input: JudgeInput, turns: readonly Turn[]): Told {
  const names = barNames(input.score, input.language);
  const bar = turns[0]?.before.toBar ?? 0;
  const to = [...new Set(turns.map(({ strand }) => strand.fromBar))];
  const target = to.length === 1 && to[0] !== undefined ? ` to ${names.long(to[0])}` : '';
  const again = turns.length < STUCK_TIMES ? '' : ` ${timesInWords(turns.length)}`;
  const advice = turns.length < STUCK_TIMES ? '' : `Start at ${names.long(Math.max(0, bar - 1))}, then play through once without stopping.`;
  return { text: `Went back${target}${again} from ${names.long(bar)}${slipped(input, turns)}.`, advice };
}

/** ", where the left hand had slipped", where it had each time. */
function slipped(input: JudgeInput, turns: readonly Turn[]): string {
  const slips = slipsByVisit(input);
  const hands = turns.map(({ before }) => new Set((slips.get(visitKey(before.stretch, before.toVisit)) ?? []).map(({ hand }) => hand)));
  const always = (['right', 'left'] as const).filter((hand) => hands.every((one) => one.has(hand)));
  if (always.length === 0) return '';
  return always.length === 2 ? ', where both hands had slipped' : `, where the ${always.join('')} hand had slipped`;
}
