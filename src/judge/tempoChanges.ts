/*
 * Written changes of tempo: by and by (ritardando, accelerando), and at once (più mosso, a new section).
 *
 * What is a fault: a change that is printed and not made. A ritardando is asked for only where printed. Less than 6 % of change is not surely heard (Drake and Botte 1993);
 * that a closing ritardando takes a fifth off is common practice, without a source.
 */
import type { TempoBend, TempoSpan } from '../measure/index.js';
import { tempoRange, type PrintedTempo } from '../score/index.js';
import type { Finding, FoundPlace, JudgeInput } from './types.js';
import { LEAST_SPAN_BARS, lengthOf } from './tempoMarks.js';
import { visitPlace } from './visitPlace.js';
import { severityOf } from './weight.js';

/** A bend by less than this share (<) is not heard. */
export const HEARD_CHANGE = 0.06;

/** A closing ritardando takes at least this share (>=) off … */
export const MADE_CHANGE = 0.2;

/** … and a bend on the way half of that. */
const MADE_ON_THE_WAY = 0.1;

/** What a bend that cannot be heard comes to, in thresholds. */
const NOT_HEARD_TIMES = 2;

/** Of a change at once at least this share (>=) must be made. */
const MADE_SHARE = 0.4;

/** Two marks differ by at least this (>=), logarithm of their ratio, to ask for a change at all: what passes as the same tempo. */
const LEAST_CHANGE = Math.log(1.1);

/** Further (<) the other way than this, the notes in it do not tell its tempo. */
const OTHER_WAY = -0.25;

/** How sure we are. */
const SURE = 0.9;
const SURE_WORDS = 0.7;

/** Bends that were not made. */
export function bendFindings(input: JudgeInput): readonly Finding[] {
  return input.measures.pulse.bends.flatMap((bend) => {
    const made = madeChange(bend);
    const asked = bend.closing ? MADE_CHANGE : MADE_ON_THE_WAY;
    if (made === null || made >= asked || made < OTHER_WAY) return [];
    const times = made < HEARD_CHANGE ? NOT_HEARD_TIMES : 1 + ((asked - made) / (asked - HEARD_CHANGE)) * (NOT_HEARD_TIMES - 1);
    const kind = bend.mark.change === 'quickening' ? 'noAccelerando' : bend.closing ? 'noClosingRitardando' : 'noRitardando';
    return [{
      aspect: 'tempo' as const, kind, hand: null, topic: String(bend.mark.tick), place: bendPlace(input, bend),
      measured: { value: Math.round(100 * made), unit: '%', threshold: 100 * asked },
      severity: severityOf(times), confidence: bend.closing ? SURE : SURE_WORDS,
    }];
  });
}

/** How much of the asked direction a bend went, as a share of the tempo before it; null where it was not measured. */
export function madeChange({ endTempo, mark }: TempoBend): number | null {
  if (!endTempo.measured) return null;
  return mark.change === 'quickening' ? endTempo.value - 1 : 1 - endTempo.value;
}

/** Bars of a bend. */
export function bendPlace({ score, measures }: JudgeInput, { stretch, fromVisit, toVisit }: TempoBend): FoundPlace {
  const first = measures.bars.find((bar) => bar.stretch === stretch && bar.visitIndex === fromVisit);
  const fromBar = score.order[fromVisit]?.barIndex ?? 0;
  return { fromBar, toBar: Math.max(fromBar, score.order[toVisit]?.barIndex ?? fromBar), pass: first?.pass ?? 1, attempt: first?.attempt ?? 1, notes: [], startS: first?.startS ?? 0 };
}

/** Changes at once that were not made: spans that follow each other in one stretch. */
export function changeFindings(input: JudgeInput): readonly Finding[] {
  const { spans } = input.measures.pulse;
  return spans.slice(1).flatMap((span, i) => {
    const before = spans[i];
    const asked = before === undefined ? null : askedChange(before, span);
    if (before === undefined || asked === null || !span.played.measured || !before.played.measured) return [];
    const made = Math.log(span.played.value / before.played.value) / asked;
    if (made >= MADE_SHARE) return [];
    const bar = input.measures.bars.find(({ stretch, visitIndex }) => stretch === span.stretch && visitIndex === span.fromVisit);
    if (bar === undefined) return [];
    return [{
      aspect: 'tempo' as const, kind: asked > 0 ? 'notQuicker' : 'notSlower', hand: null, topic: String(span.mark?.tick ?? 0),
      place: visitPlace(bar),
      measured: { value: Math.round(100 * made), unit: '%', threshold: 100 * MADE_SHARE },
      severity: severityOf(1 + (MADE_SHARE - made)), confidence: SURE_WORDS,
    }];
  });
}

/** Logarithm of the change that two marks ask for; null where they ask for none, or do not tell. */
function askedChange(before: TempoSpan, after: TempoSpan): number | null {
  if (before.stretch !== after.stretch || before.toVisit + 1 !== after.fromVisit || after.mark === null || Math.min(lengthOf(before), lengthOf(after)) < LEAST_SPAN_BARS) return null;
  if (after.mark.change === 'quicker') return LEAST_CHANGE;
  if (after.mark.change === 'slower') return -LEAST_CHANGE;
  const asked = before.mark === null ? null : betweenMarks(before.mark, after.mark);
  return asked === null || Math.abs(asked) < LEAST_CHANGE ? null : asked;
}

/** Logarithm of the change from one mark to another, from figures; from words the least that both allow. */
function betweenMarks(from: PrintedTempo, to: PrintedTempo): number | null {
  if (from.crotchetsAMinute !== null && to.crotchetsAMinute !== null) return Math.log(to.crotchetsAMinute / from.crotchetsAMinute);
  const [before, after] = [from, to].map(({ words, unit }) => {
    const range = tempoRange(words);
    return range === null || range.slow ? null : { least: range.least * unit.crotchets, most: range.most * unit.crotchets };
  });
  if (before === null || after === null || before === undefined || after === undefined) return null;
  if (after.least > before.most) return Math.log(after.least / before.most);
  return after.most < before.least ? Math.log(after.most / before.least) : 0;
}
