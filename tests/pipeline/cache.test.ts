import { expect, test } from 'vitest';
import { createCache } from '../../src/pipeline/cache.js';

/** A maker that counts how often it is asked. */
function counted(): { readonly make: (value: string) => () => Promise<string>; readonly calls: () => readonly string[] } {
  const calls: string[] = [];
  return { make: (value) => () => (calls.push(value), Promise.resolve(value)), calls: () => calls };
}

test('a kept result is not made again', async () => {
  const { make, calls } = counted();
  const cache = createCache<string>(2);
  expect(await cache.get('a', make('a'))).toBe('a');
  expect(await cache.get('a', make('other'))).toBe('a');
  expect(calls()).toEqual(['a']);
});

test('askers at one time share one promise', () => {
  const cache = createCache<string>(2);
  const { make, calls } = counted();
  expect(cache.get('a', make('a'))).toBe(cache.get('a', make('a')));
  expect(calls()).toHaveLength(1);
});

test('the least recently used goes first', async () => {
  const cache = createCache<string>(2);
  const { make, calls } = counted();
  for (const key of ['a', 'b', 'a', 'c']) await cache.get(key, make(key));
  // a was used after b, so c drove b out
  await cache.get('a', make('a'));
  await cache.get('b', make('b'));
  expect(calls()).toEqual(['a', 'b', 'c', 'b']);
});

test('a failure is not kept', async () => {
  const cache = createCache<string>(2);
  await expect(cache.get('a', () => Promise.reject(new TypeError('first')))).rejects.toBeInstanceOf(TypeError);
  expect(await cache.get('a', () => Promise.resolve('second'))).toBe('second');
});

test.each([0, 1.5, -1])('a cache of %s entries is our own misuse', (entries) => {
  expect(() => createCache(entries)).toThrow(RangeError);
});
