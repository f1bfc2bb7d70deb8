import { listInWords, sentenceCase, type Language } from '../base/index.js';
import { placesInWords, strandsOf, type AspectJudgement, type JudgeInput } from '../judge/index.js';
import { makeReview } from './makeReview.js';
import { routeInWords } from './routeWords.js';
import { tempoInWords, tempoOf } from './tempoWords.js';
import { purposeInWords } from './purposeWords.js';
import type { Remark, Review, ReviewOptions } from './types.js';
import { wrap } from './wrap.js';

/** The review as text for a terminal, one screen: the way taken, what is worth saying, what went well, where else something was seen. */
export function reviewInWords(input: JudgeInput, options: ReviewOptions = {}): string {
  const { score, alignment, measures, recording, language } = input;
  const review = makeReview(input, options);
  const route = routeInWords(score, strandsOf(score, alignment, recording.notes.map(({ onsetS }) => onsetS)), { language });
  const head = [score.title, `${sentenceCase(tempoInWords(tempoOf(score, measures), language))}. ${route}`, purposeInWords(review.purpose), ...review.limits];
  const parts = [
    head.filter((line) => line !== '').map((line) => wrap(line, '')),
    worthSaying(review),
    review.goingWell.length === 0 ? [] : ['Going well', ...review.goingWell.map(({ text }) => `  ${wrap(text, '  ')}`)],
    alsoSeen(input, review, language),
    notMeasured(review.judgement.aspects),
  ];
  return `${parts.filter((lines) => lines.length > 0).map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

/** The numbered remarks. */
function worthSaying({ worthSaying: remarks, forParent }: Review): readonly string[] {
  if (remarks.length === 0) return ['Nothing stands out that would need saying.'];
  return [forParent ? 'Worth saying, for the parent' : 'Worth saying', ...remarks.map(({ text, advice }, i) => `  ${i + 1} ${wrap(`${text} ${advice}`.trim(), '    ')}`)];
}

/** Where else something was seen, an aspect a line. */
function alsoSeen(input: JudgeInput, { alsoSeen: seen }: Review, language: Language): readonly string[] {
  if (seen.length === 0) return [];
  const bars = (remarks: readonly Remark[]): string => placesInWords({ score: input.score, language }, remarks.flatMap(({ places }) => places));
  return ['Also seen', ...seen.map(({ aspect, remarks }) => `  ${aspect.padEnd(9)} ${wrap(bars(remarks), '            ')}`)];
}

/** What was not measured and why, one line a reason. */
function notMeasured(aspects: readonly AspectJudgement[]): readonly string[] {
  const reasons = new Map<string, string[]>();
  for (const { aspect, concern } of aspects) {
    if (!concern.measured) reasons.set(concern.reason, [...(reasons.get(concern.reason) ?? []), aspect]);
  }
  return [...reasons].map(([reason, which]) => wrap(`${sentenceCase(listInWords(which))} not measured, because ${reason}.`, ''));
}
