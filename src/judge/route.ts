/*
 * The route: going back, bars left out, repeats not taken.
 *
 * What is a fault: going back is practising as often as stumbling, so once is hardly worth a word; again and again at one
 * place it says that the place is not learned, and here and there after every slip it is a habit that tears the piece (common practice,
 * no source). A repeat left out is a remark, not a fault.
 * A section alone or one hand alone is a way to work: the route tells it and nobody is blamed.
 */
import { measured, timesInWords, word } from '../base/index.js';
import { HANDS, type Hand } from '../measure/index.js';
import { barNames } from '../score/index.js';
import { slipsByVisit, visitKey } from './differences.js';
import { observe, type Untold } from './merge.js';
import { placesInWords } from './placeWords.js';
import { strandsOf, wentBack, type Strand } from './strands.js';
import type { AspectJudgement, Finding, FoundPlace, JudgeInput, Told } from './types.js';
import { concernOf, severityOf } from './weight.js';

/** A place that was gone back from so often (>=) has not been learned. */
const STUCK_TIMES = 2;

/** The topic of goings-back at different places, each after a slip. */
const AT_SLIPS = 'at slips';

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
  const slips = slipsByVisit(input);
  const turns = turnsOf(strandsOf(input.score, input.alignment, input.recording.notes.map(({ onsetS }) => onsetS)));
  const back = turns.filter((turn) => brokenOff(input, turn)).map((turn): Return => ({ ...turn, slipped: slippedBefore(turn, slips) }));
  const findings = [...goingBack(input, back), ...turns.flatMap((turn) => leftOut(input, turn))];
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
  return wentBack([before, strand], 1) && before.toVisit < score.order.length - 1;
}

/** A going-back, and the hands that had slipped in the last bar before it. */
interface Return extends Turn {
  readonly slipped: ReadonlySet<Hand>;
}

/** A going-back with what it is told by: the place that is gone back from again and again, or that hands slipped. */
interface ToldReturn {
  readonly turn: Return;
  /** How many there are of its kind. */
  readonly times: number;
  readonly topic: string;
}

/** Goings-back: again and again over the same bars; after a slip, here and there; and single ones. */
function goingBack(input: JudgeInput, back: readonly Return[]): readonly Finding[] {
  const places = samePlaces(back);
  const single = places.filter(({ length }) => length < STUCK_TIMES).flat();
  const slips = single.filter(({ slipped }) => slipped.size > 0);
  const often = slips.length >= STUCK_TIMES ? slips : [];
  const returns = [
    ...places.filter(({ length }) => length >= STUCK_TIMES).flatMap((turns, i) => turns.map((turn): ToldReturn => ({ turn, times: turns.length, topic: `stuck ${i}` }))),
    ...often.map((turn): ToldReturn => ({ turn, times: often.length, topic: AT_SLIPS })),
    ...single.filter((turn) => !often.includes(turn)).map((turn, i): ToldReturn => ({ turn, times: 1, topic: `once ${i}` })),
  ];
  return returns.map(({ turn: { before }, times, topic }): Finding => ({
    aspect: 'route', kind: 'goingBack', hand: null, place: placeOf(input, before), topic, confidence: 1,
    measured: { value: times, unit: times === 1 ? 'time' : 'times', threshold: STUCK_TIMES },
    severity: times < STUCK_TIMES ? ONCE * severityOf(1) : severityOf(topic === AT_SLIPS ? 1 + (times - 1) / STUCK_TIMES : times),
  }));
}

/** Goings-back over the same bars together: each from where it led to up to where it broke off. */
function samePlaces(back: readonly Return[]): readonly (readonly Return[])[] {
  const groups: { from: number; to: number; turns: Return[] }[] = [];
  for (const turn of [...back].sort((a, b) => a.strand.fromBar - b.strand.fromBar)) {
    const last = groups.at(-1);
    if (last !== undefined && (turn.strand.fromBar < last.to || turn.before.toBar <= last.to)) {
      last.turns.push(turn);
      last.to = Math.max(last.to, turn.before.toBar);
    } else groups.push({ from: turn.strand.fromBar, to: turn.before.toBar, turns: [turn] });
  }
  return groups.map(({ turns }) => turns);
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
function placeOf({ measures }: JudgeInput, { stretch, toVisit, toBar, endS }: Strand): FoundPlace {
  const bar = measures.bars.find((one) => one.stretch === stretch && one.visitIndex === toVisit);
  return { fromBar: toBar, toBar, pass: bar?.pass ?? 1, attempt: bar?.attempt ?? 1, notes: [], startS: endS };
}

/** The sentence of one observation. */
function tell(input: JudgeInput, untold: Untold, back: readonly Return[]): Told {
  const bars = placesInWords(input, untold.places);
  if (untold.kind === 'repeatLeftOut') return { text: `The repeat of ${bars} was not taken.`, advice: '' };
  if (untold.kind === 'barsLeftOut') return { text: `Left out: ${bars}.`, advice: `Play from the ${word('bar', input.language)} before into it.` };
  return tellGoingBack(input, untold, back.filter(({ before }) => untold.places.some(({ fromBar, toBar }) => before.toBar >= fromBar && before.toBar <= toBar)));
}

/** "You went back to bar 19 twice from bar 22, where the left hand had slipped. Start at bar 22 itself, then at bar 21, then play through once without stopping." */
function tellGoingBack(input: JudgeInput, { places, topic }: Untold, turns: readonly Return[]): Told {
  const names = barNames(input.score, input.language);
  const from = placesInWords(input, places);
  if (topic === AT_SLIPS) {
    return { text: `You broke off in ${from}, ${slippedInWords(turns)}, and went back.`, advice: 'Practise these places by themselves; in the whole piece play on through a slip, and mend it afterwards.' };
  }
  const to = [...new Set(turns.map(({ strand }) => strand.fromBar))];
  const target = to.length === 1 && to[0] !== undefined ? ` to ${names.long(to[0])}` : '';
  const often = turns.length < STUCK_TIMES ? '' : ` ${timesInWords(turns.length)}`;
  const where = slippedInWords(turns);
  const sameBar = turns.every(({ before, strand }) => strand.fromBar === before.toBar);
  const text = `You ${sameBar ? `began ${from} again${often}` : `went back${target}${often} from ${from}`}${where === '' ? '' : `, ${where}`}.`;
  const first = Math.min(...turns.map(({ before }) => before.toBar));
  return { text, advice: turns.length < STUCK_TIMES ? '' : `Start at ${names.long(first)} itself, then at ${names.long(Math.max(0, first - 1))}, then play through once without stopping.` };
}

/** "where the left hand had slipped", where it had each time. */
function slippedInWords(turns: readonly Return[]): string {
  const always = HANDS.filter((hand) => turns.every(({ slipped }) => slipped.has(hand)));
  if (always.length === 0) return turns.every(({ slipped }) => slipped.size > 0) && turns.length > 1 ? 'each time where a hand had slipped' : '';
  return always.length === 2 ? 'where both hands had slipped' : `where the ${always.join('')} hand had slipped`;
}

/** The hands that had slipped in the last bar before a turn. */
function slippedBefore({ before }: Turn, slips: ReturnType<typeof slipsByVisit>): ReadonlySet<Hand> {
  return new Set((slips.get(visitKey(before.stretch, before.toVisit)) ?? []).map(({ hand }) => hand));
}
