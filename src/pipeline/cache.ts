/** Results by key, the least recently used going first. Askers of one key at one time share one promise. */
export interface Cache<T> {
  /** The kept result, or the one that `make` gives; failures are not kept, so that the next asker tries again. */
  get(key: string, make: () => Promise<T>): Promise<T>;
  /** Throws away the results of some keys. */
  drop(isOne: (key: string) => boolean): void;
}

/**
 * An empty cache.
 * @param entries how many results are kept at most
 * @throws RangeError where that is under 1
 */
export function createCache<T>(entries: number): Cache<T> {
  if (!Number.isInteger(entries) || entries < 1) throw new RangeError(`a cache keeps at least one entry, not ${entries}`);
  // a Map keeps the order of insertion: the first key is the one longest unused
  const kept = new Map<string, Promise<T>>();

  function forget(key: string, failed: Promise<T>): void {
    if (kept.get(key) === failed) kept.delete(key);
  }

  return {
    get(key, make) {
      const known = kept.get(key);
      const result = known ?? make();
      kept.delete(key);
      kept.set(key, result);
      if (!known) result.catch(() => forget(key, result));
      const oldest = kept.keys().next().value;
      if (kept.size > entries && oldest !== undefined) kept.delete(oldest);
      return result;
    },
    drop(isOne) {
      for (const key of [...kept.keys()]) if (isOne(key)) kept.delete(key);
    },
  };
}
