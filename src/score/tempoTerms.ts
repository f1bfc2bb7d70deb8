/** What tempo words mean: one table each for how fast, for changes, and for freedom. Italian, German, French, English. */

/** Beats a minute that a word stands for, both ends counted. */
export interface TempoRange {
  readonly least: number;
  readonly most: number;
  /** True for words slow enough that the beat is often counted in halves. */
  readonly slow: boolean;
}

/** What a change of tempo asks for. */
export type TempoChange =
  /** Slower by and by: ritardando, calando. */
  | 'slowing'
  /** Quicker by and by: accelerando, stringendo. */
  | 'quickening'
  /** Softer, and often slower: calando, smorzando. */
  | 'dying'
  /** Slower at once: meno mosso. */
  | 'slower'
  /** Quicker at once: più mosso. */
  | 'quicker'
  /** As before: a tempo. */
  | 'back'
  /** As the player likes: ad libitum, cadenza. */
  | 'free';

/**
 * Words for a tempo, the first that fits counts, so longer words stand before those they begin with. The ranges are
 * common practice, without a source: markings of metronomes and method books, widened to what several of them give.
 */
const RANGES: readonly (readonly [words: RegExp, least: number, most: number])[] = [
  [/prestissimo/i, 176, 220],
  [/presto|très vite|sehr (schnell|rasch)/i, 152, 208],
  [/vivaciss|viviss/i, 150, 190],
  [/vivac|vivo|\bvif\b|lebhaft|lively/i, 120, 176],
  [/allegretto|munter/i, 92, 132],
  [/alleg[a-z]* (ma )?non (troppo|tanto)|alleg[a-z]* moderato/i, 100, 144],
  [/alleg|schnell|rasch|\bvite\b|animé|\bfast\b|\bquick/i, 108, 168],
  [/march|marcia|marziale/i, 96, 132],
  [/andantino/i, 60, 108],
  [/andant|con moto|gehend|gently moving|walking/i, 60, 104],
  [/moderat|modéré|m[aä](ss|ß)ig|steady/i, 80, 126],
  [/maestoso/i, 60, 104],
  [/larghetto/i, 54, 80],
  [/adagietto/i, 56, 84],
  [/adag/i, 44, 78],
  [/lent|langsam|\bslow/i, 40, 72],
  [/larg/i, 36, 66],
  [/grave/i, 30, 54],
];

/** Up to this many beats a minute (<=) as the low end, slow music is often counted in the half of its beat. */
const SLOW_LEAST = 60;

/** Words of change, the first that fits counts. Common practice, not complete. */
const CHANGES: readonly (readonly [words: RegExp, change: TempoChange])[] = [
  [/\b(a tempo|in tempo|im tempo|tempo (i\b|1|primo)|im zeitma|au mouvement|l'?istesso|listesso)/i, 'back'],
  [/\b(ad lib|a piacere|cadenza|senza (misura|tempo)|recit|rubato|tempo libero|freely)/i, 'free'],
  [/\b(accel|string|affrett|incalz|stretto\b|poco a poco (più|piu) (mosso|vivo))/i, 'quickening'],
  [/\b(rit\b|rit\.|ritard|riten|rall|allarg|slarg|slent|zögernd|retard|cédez)/i, 'slowing'],
  [/\b(calando|smorz|morendo|mancando|perdendo)/i, 'dying'],
  [/\b(pi[uù] (mosso|vivo|presto|allegro|animato)|doppio movimento|schneller|plus vite|faster|stretta)/i, 'quicker'],
  [/\b(meno (mosso|vivo|allegro)|pi[uù] (lento|largo|tranquillo)|langsamer|plus lent|slower)/i, 'slower'],
];

/** Words that name a tempo only against the one before: più lento. */
const RELATIVE = /(^|\s)(p[il][uù]|meno|plus|moins|etwas|more|less)\s|\b(langsam|schnell|slow|fast|quick)er\b/i;

/** Beats a minute that words stand for, or null for words that name no tempo of their own. */
export function tempoRange(words: string): TempoRange | null {
  if (RELATIVE.test(words)) return null;
  const found = RANGES.find(([pattern]) => pattern.test(words));
  return found === undefined ? null : { least: found[1], most: found[2], slow: found[1] <= SLOW_LEAST };
}

/** The change that words ask for, or null where they ask for none. */
export function tempoChange(words: string): TempoChange | null {
  return CHANGES.find(([pattern]) => pattern.test(words))?.[1] ?? null;
}
