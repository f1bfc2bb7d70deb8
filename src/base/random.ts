/** A source of numbers in [0, 1). */
export type Random = () => number;

/**
 * Seeded random numbers, the same on every machine: a 32-bit state advanced by a Weyl constant and mixed
 * (the public-domain "mulberry32" recipe of T. Ettinger, recalled from memory).
 * @param seed any integer; only its low 32 bits count
 */
export function seededRandom(seed: number): Random {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** Standard normal numbers (mean 0, deviation 1) from a uniform source, by the Box-Muller transform (1958). */
export function gaussian(random: Random): Random {
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}
