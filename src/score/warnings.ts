/** The list of oddities. A program's habit shows in hundreds of bars; a teacher wants to read it once. */
import type { ScoreWarning } from './types.js';

/** Most bars named one by one in a warning; further ones are counted. */
const BARS_NAMED = 6;

/** Collects what is odd in a file; the same oddity in many bars becomes one warning that names them. */
export class WarningList {
  readonly #bars = new Map<string, string[]>();

  /**
   * @param bar printed number of the bar, null where it belongs to the whole file
   * @param sentence what is odd and what is made of it, without the bar
   */
  add(bar: string | null, sentence: string): void {
    const known = this.#bars.get(sentence) ?? [];
    if (bar !== null && known.at(-1) !== bar) known.push(bar);
    this.#bars.set(sentence, known);
  }

  /** All warnings, in the order in which each was first met. */
  all(): readonly ScoreWarning[] {
    return [...this.#bars].map(([sentence, bars]) => ({
      bar: bars[0] ?? null,
      text: bars.length < 2 ? sentence : `${sentence} (${barsInWords(bars)})`,
    }));
  }
}

/** "bars 3, 5 and 9", or "bars 3, 5, 9, 12, 13, 14 and 20 more". */
function barsInWords(bars: readonly string[]): string {
  if (bars.length > BARS_NAMED) return `bars ${bars.slice(0, BARS_NAMED).join(', ')} and ${bars.length - BARS_NAMED} more`;
  return `bars ${bars.slice(0, -1).join(', ')} and ${bars.at(-1) ?? ''}`;
}
