import type { BarFacts } from '../measure/index.js';
import type { FoundPlace } from './types.js';

/** One visit to a bar as a place. @param notes written notes it is seen at: places in `Score.notes` */
export function visitPlace({ barIndex, pass, attempt, startS }: BarFacts, notes: readonly number[] = []): FoundPlace {
  return { fromBar: barIndex, toBar: barIndex, pass, attempt, notes, startS };
}
