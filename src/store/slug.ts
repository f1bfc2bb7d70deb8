/** Longest slug, characters: names wrap on screen, but an address should stay readable. */
const LONGEST = 60;

/**
 * A name as a part of an address: lower case, letters and digits of any script, accents taken off, hyphens between.
 * @param otherwise what to say where nothing is left ("pupil")
 */
export function slugOf(name: string, otherwise: string): string {
  const slug = name
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .toLowerCase()
    .replace(/['’]/g, '')
    .replace(/[^\p{L}\p{N}]+/gu, '-');
  return trimHyphens(Array.from(slug).slice(0, LONGEST).join('')) || otherwise;
}

/** The slug itself, or with the first number behind it that is still free: "orla-2". */
export function freeSlug(slug: string, isTaken: (slug: string) => boolean): string {
  if (!isTaken(slug)) return slug;
  for (let number = 2; ; number++) {
    const candidate = `${slug}-${number}`;
    if (!isTaken(candidate)) return candidate;
  }
}

/** Without hyphens at either end. */
function trimHyphens(text: string): string {
  return text.replace(/^-+|-+$/g, '');
}
