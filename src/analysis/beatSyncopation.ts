/**
 * The question: how strongly does a note push against the metre?
 * Conventions: positions and lengths in whole units of one grid, counted from the first beat of a bar. A weight is 0 for
 * the first beat and one less for every level of division below it.
 * Method: Longuet-Higgins & Lee 1984, "The rhythmic interpretation of monophonic music", Music Perception 1:424-441. A note's
 * strength is the weight of the strongest position that passes before the next note, less the weight of the note's own
 * position; below 0 there is none. A note after which no position passes has none either.
 * It does not tell whether the passed position is silent or held through; callers look at that.
 */

/** Spans of the levels of a metre in grid units, longest first: [8, 4, 2, 1] for 4/4 in quavers. */
export type MetreSpans = readonly number[];

/**
 * The spans of a bar that divides so, level by level.
 * @param barUnits length of the bar in grid units
 * @throws RangeError where the bar has no length
 */
export function metreSpans(barUnits: number, divisions: readonly number[]): MetreSpans {
  if (!(barUnits > 0)) throw new RangeError('a bar must have a length');
  const spans = [barUnits];
  for (const division of divisions) {
    const next = (spans[spans.length - 1] ?? 1) / division;
    if (!Number.isInteger(next)) break;
    spans.push(next);
  }
  // below the beat everything divides by two, as far as the grid goes
  for (let half = (spans[spans.length - 1] ?? 1) / 2; Number.isInteger(half); half /= 2) spans.push(half);
  return spans;
}

/** Weight of a position: 0 on the first beat, -1 one level below … ; below all levels one less than the lowest. */
export function metricWeight(position: number, spans: MetreSpans): number {
  const level = spans.findIndex((span) => position % span === 0);
  return level < 0 ? -spans.length : -level;
}

/** A position and its weight. */
export interface MetricPlace {
  readonly position: number;
  readonly weight: number;
}

/** The strongest position after `from` and before `to` (the first of equals), or null where the grid has none between them. */
export function strongestBetween(from: number, to: number, spans: MetreSpans): MetricPlace | null {
  for (const [level, span] of spans.entries()) {
    const position = (Math.floor(from / span) + 1) * span;
    if (position < to) return { position, weight: -level };
  }
  return null;
}

/** Strength of one note from its place to the next note's; null where it is no syncopation. */
export function syncopationStrength(from: number, to: number, spans: MetreSpans): number | null {
  const passed = strongestBetween(from, to, spans);
  if (passed === null) return null;
  const strength = passed.weight - metricWeight(from, spans);
  // + 0 so that no syncopation is ever -0
  return strength < 0 ? null : strength + 0;
}

/** Strengths of a rhythm given as lengths from note to note, the first on the first beat. */
export function syncopations(lengths: readonly number[], spans: MetreSpans): readonly (number | null)[] {
  let at = 0;
  return lengths.map((length) => syncopationStrength(at, (at += length), spans));
}
