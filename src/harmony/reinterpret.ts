/*
 * Question: what is a chord where it stands, when the keys pressed could be several?
 * Conventions: roots of augmented sixths as theory has them: the raised fourth for Italian and German, the supertonic for French.
 * Method: by spelling where the score has it: a diminished seventh stands on its sharpest note; a seventh spelled as an augmented
 *   sixth is one. Without spelling by where the chord goes: a semitone up from a diminished seventh's root; to
 *   the dominant from an augmented sixth on the flattened sixth degree.
 * Source: textbook usage; the order of the tests is our own.
 * What it does not tell: enharmonic puns that mean both.
 */
import { spellingIn, type Draft } from './draft.js';
import { mod } from './pitchNames.js';

/** The share of a harmony that a ninth must sound to belong to it. */
const NINTH_SHARE = 0.5;

/** Drafts with roots and qualities as they are meant. `spelled` says whether spelling may be trusted. */
export function reinterpret(drafts: readonly Draft[], spelled: boolean): readonly Draft[] {
  return drafts.map((draft, i) => {
    const next = drafts[i + 1] ?? null;
    if (draft.quality === 'diminishedSeventh') return diminishedSeventh(draft, next, spelled);
    if (draft.quality === 'augmented') return spelled ? standsOnFlattest(draft) : draft;
    if (draft.quality === 'frenchSixth') return withoutPassingRoot(spelled ? frenchSixth(draft) : draft);
    if (draft.quality !== 'dominantSeventh') return draft;
    return isAugmentedSixth(draft, next, spelled) ? augmentedSixth(draft) : withNinth(draft);
  });
}

/** The root of a diminished seventh: its sharpest note as spelled, else what leads to the next root, else the leading note. */
function diminishedSeventh(draft: Draft, next: Draft | null, spelled: boolean): Draft {
  const places = draft.members.map((pc) => spellingIn(draft, pc));
  const known = places.filter((place) => place !== null);
  const sharpest = Math.max(...known);
  if (spelled && known.length === 4 && sharpest - Math.min(...known) === 9) return onRoot(draft, mod(7 * sharpest, 12));
  const leading = [next === null ? null : mod(next.root - 1, 12), mod(draft.key.tonic - 1, 12)];
  const root = leading.find((pc) => pc !== null && draft.members.includes(pc));
  return root === undefined || root === null ? draft : onRoot(draft, root);
}

/** An augmented triad stands on its flattest note. */
function standsOnFlattest(draft: Draft): Draft {
  const places = draft.members.map((pc) => spellingIn(draft, pc)).filter((place) => place !== null);
  const flattest = Math.min(...places);
  return places.length === 3 && Math.max(...places) - flattest === 8 ? onRoot(draft, mod(7 * flattest, 12)) : draft;
}

/** A French sixth's augmented sixth tells which of its two tritones holds the root. */
function frenchSixth(draft: Draft): Draft {
  const third = spellingIn(draft, draft.members[1] ?? 0);
  const fifth = spellingIn(draft, draft.members[2] ?? 0);
  // spelled the other way round, the root lies a tritone away
  return third !== null && fifth !== null && fifth - third === 10 ? onRoot(draft, mod(draft.root + 6, 12)) : draft;
}

/** A French sixth whose own note, the second degree, only passes or turns is Italian. Members from the second degree: root, raised fourth, sixth, tonic. */
function withoutPassingRoot(draft: Draft): Draft {
  const [own, raisedFourth = 0, flatSixth = 0, tonic = 0] = draft.members;
  const sounds = draft.notes.filter((note) => note.pc === own);
  const passes = sounds.every((note) => note.approach !== 0 && note.departure !== 0 && note.end - note.onset < draft.beat);
  return passes ? { ...draft, root: raisedFourth, members: [raisedFourth, flatSixth, tonic], quality: 'italianSixth' } : draft;
}

/** The same symmetrical chord on another of its notes. */
function onRoot(draft: Draft, root: number): Draft {
  const shift = mod(root - draft.root, 12);
  const moved = draft.members.map((pc) => mod(pc + shift, 12));
  return { ...draft, root, members: moved };
}

/** Whether a dominant seventh in sound is an augmented sixth in sense. */
function isAugmentedSixth(draft: Draft, next: Draft | null, spelled: boolean): boolean {
  const seventh = spellingIn(draft, draft.members[3] ?? 0);
  const root = spellingIn(draft, draft.root);
  if (spelled && seventh !== null && root !== null) return seventh - root === 10;
  return mod(draft.root - draft.key.tonic, 12) === 8 && next !== null && next.root === mod(draft.key.tonic + 7, 12);
}

/** German with the fifth of the seventh chord, Italian without. Members from the raised fourth: root, third, fifth (, seventh). */
function augmentedSixth(draft: Draft): Draft {
  const [flatSixth = 0, tonic = 0, flatThird = 0, raisedFourth = 0] = draft.members;
  const german = draft.notes.some((note) => note.pc === flatThird);
  const members = german ? [raisedFourth, flatSixth, tonic, flatThird] : [raisedFourth, flatSixth, tonic];
  return { ...draft, root: raisedFourth, members, quality: german ? 'germanSixth' : 'italianSixth' };
}

/** A dominant seventh whose ninth sounds for half its length and does not resolve inside it. */
function withNinth(draft: Draft): Draft {
  for (const [interval, quality] of [[2, 'dominantNinth'], [1, 'dominantMinorNinth']] as const) {
    const pc = mod(draft.root + interval, 12);
    const ninths = draft.notes.filter((note) => note.pc === pc && (note.departure === 0 || note.end >= draft.to));
    const sounds = ninths.reduce((sum, note) => sum + Math.min(note.end, draft.to) - Math.max(note.onset, draft.from), 0);
    if (sounds >= NINTH_SHARE * (draft.to - draft.from)) return { ...draft, quality, members: [...draft.members, pc] };
  }
  return draft;
}
