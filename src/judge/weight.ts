/** How measured values become severities, weights and concern: one scale for all aspects, so that their observations can be ranked together. */

/** Severity of what stands exactly at the threshold: worth a look, no more. */
const SEVERITY_AT_THRESHOLD = 0.3;

/** How quickly severity grows with the value: twice the threshold gives 0.6, four times 0.77. Our own rule. */
const SEVERITY_POWER = 0.8;

/** What each further place adds, as a share of its own severity: the same slip nine times is worse than once, but it is one slip. */
const FURTHER_PLACE_SHARE = 0.15;

/** What each further observation adds to an aspect's concern, as a share of its weight. */
const FURTHER_OBSERVATION_SHARE = 0.5;

/**
 * How bad something is, 0-1, from how many times the threshold it reaches.
 * @param ratio measured value by threshold, both counted from the expected value; below 1 the severity is 0
 */
export function severityOf(ratio: number): number {
  return ratio < 1 ? 0 : 1 - (1 - SEVERITY_AT_THRESHOLD) / ratio ** SEVERITY_POWER;
}

/** Weight, 0-1, of one thing found at several places: the worst place counts in full, the others add a little each. */
export function weightOf(found: readonly { readonly severity: number; readonly confidence: number }[]): number {
  return together(found.map(({ severity, confidence }) => severity * confidence), FURTHER_PLACE_SHARE);
}

/** Concern, 0-1, of an aspect from the weights of its observations. */
export function concernOf(weights: readonly number[]): number {
  return together(weights, FURTHER_OBSERVATION_SHARE);
}

/** The greatest in full and a share of each other, as chances that do not exclude one another. */
function together(parts: readonly number[], share: number): number {
  const [most = 0, ...others] = [...parts].sort((a, b) => b - a);
  return 1 - others.reduce((left, part) => left * (1 - share * part), 1 - most);
}
