import { countInWords } from '../base/index.js';
import type { BarFacts, Measures } from '../measure/index.js';

/** Length of a crotchet where none could be measured, seconds: that of 80 a minute, a middling tempo. */
const USUAL_CROTCHET_S = 0.75;

/** From so many quavers (>=) on a length is told in crotchets: nobody counts odd quavers further. */
const ROUND_FROM = 8;

/** Seconds of a crotchet in one visit to a bar, by the pulse as it was played. */
export function crotchetIn({ bars, pulse }: Measures, visit: BarFacts): number {
  const place = bars.indexOf(visit);
  const tempo = pulse.bars[place]?.tempo;
  if (tempo?.measured === true) return 60 / tempo.value;
  return visit.tempo.measured ? 60 / visit.tempo.value : USUAL_CROTCHET_S;
}

/** A length of time by the pulse: "a quaver", "three quavers", "a semiquaver", "less than a semiquaver", "two crotchets". */
export function lengthInWords(seconds: number, crotchetS: number): string {
  const quavers = Math.round((2 * seconds) / crotchetS);
  if (quavers >= ROUND_FROM || (quavers >= 2 && quavers % 2 === 0)) return several(Math.round(quavers / 2), 'crotchet');
  if (quavers >= 1) return several(quavers, 'quaver');
  return 4 * seconds >= crotchetS / 2 ? 'a semiquaver' : 'less than a semiquaver';
}

/** "a quaver", "three quavers". */
function several(count: number, name: string): string {
  return count === 1 ? `a ${name}` : `${countInWords(count)} ${name}s`;
}
