/**
 * The first index from `from` on that has reached something, by halving; `length` where none has. For lists in order:
 * once `reached` is true it must stay true to the end.
 */
export function firstIndex(length: number, reached: (index: number) => boolean, from = 0): number {
  let low = from;
  let high = length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (reached(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Items by key, groups and their items in order of first appearance. */
export function groupBy<T, K>(items: readonly T[], keyOf: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [item]);
    else group.push(item);
  }
  return groups;
}
