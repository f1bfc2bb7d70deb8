import { sentenceCase } from '../base/index.js';
import { ASPECTS, judgeAll, strandsOf, type Judgement, type JudgeInput } from '../judge/index.js';
import { routeInWords } from './routeWords.js';
import { wrap } from './wrap.js';

/** The review as text for a terminal: the route, then what was found, an aspect at a time. */
export function reviewInWords(input: JudgeInput): string {
  const { score, alignment, recording } = input;
  const judgement = judgeAll(input);
  const route = routeInWords(score, strandsOf(score, alignment, recording.notes.map((note) => note.onsetS)), { language: input.language });
  const limits = recording.limits.map(({ text }) => wrap(text, ''));
  return [wrap(route, ''), ...limits, ...ASPECTS.flatMap((aspect) => aspectLines(judgement, aspect))].join('\n') + '\n';
}

/** An aspect's summary and its observations; nothing where it is not judged. */
function aspectLines({ aspects }: Judgement, name: string): readonly string[] {
  const judged = aspects.find(({ aspect }) => aspect === name);
  if (judged === undefined) return [];
  const { concern, summary, observations } = judged;
  const head = concern.measured ? summary : `not measured, because ${concern.reason}.`;
  return ['', wrap(`${sentenceCase(name)}: ${head}`, ''), ...observations.map(({ text, advice }) => `  ${wrap(`${text} ${advice}`.trim(), '    ')}`)];
}
