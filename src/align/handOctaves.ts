/**
 * The question: does a hand play whole bars an octave off?
 * Conventions: octaves above (+) or below (-) the written place, by slot and hand; 0 where it plays as written.
 * Method: every match of the follower votes for its hand: as written, or so many octaves off; a stretch of votes that mostly
 * agree on an octave carries it. Our own rule. Single slips are told apart in `pairNotes.ts`.
 */
import { firstIndex } from '../base/index.js';
import type { Press } from './press.js';
import { LEFT, RIGHT, type Slots } from './slots.js';
import type { Run } from './stretches.js';

/** Votes looked at around a slot, and the least that must be there. */
const WINDOW = 12;
const LEAST_VOTES = 6;
/** Share of them that must agree. */
const AGREE = 0.6;

/** Octaves that a hand is off at a slot. */
export type HandOctaves = (slot: number, hand: number) => number;

interface Vote {
  readonly slot: number;
  readonly octaves: number;
}

// What a match says of a hand: octaves off, or nothing where its slot does not hold the key at all.
function voteOf(slots: Slots, slot: number, key: number): { hands: number; octaves: number } | null {
  for (const octaves of [0, 1, -1]) {
    const places = slots.byKey[key - 12 * octaves];
    const at = places ? places.slots.indexOf(slot) : -1;
    if (places && at >= 0) return { hands: places.hands[at] ?? 0, octaves };
  }
  return null;
}

function votesOf(slots: Slots, presses: readonly Press[], run: Run, hand: number): Vote[] {
  return run.slots.flatMap((slot, i) => {
    const vote = voteOf(slots, slot, presses[run.presses[i] ?? 0]?.key ?? 0);
    return vote && vote.hands & hand ? [{ slot, octaves: vote.octaves }] : [];
  });
}

// The octave that most votes around one of them agree on.
function agreed(votes: readonly Vote[], center: number): number {
  const around = votes.slice(Math.max(0, center - WINDOW / 2), center + WINDOW / 2 + 1);
  if (around.length < LEAST_VOTES) return 0;
  return [1, -1].find((octaves) => around.filter((vote) => vote.octaves === octaves).length >= AGREE * around.length) ?? 0;
}

/** Finds the octaves of both hands along one run; every slot takes the answer of the nearest vote before it. */
export function handOctaves(slots: Slots, presses: readonly Press[], run: Run): HandOctaves {
  const answers = new Map([RIGHT, LEFT].map((hand) => {
    const votes = votesOf(slots, presses, run, hand);
    return [hand, votes.some((vote) => vote.octaves !== 0) ? votes.map((vote, i) => ({ slot: vote.slot, octaves: agreed(votes, i) })) : []] as const;
  }));
  return (slot, hand) => {
    const list = answers.get(hand) ?? [];
    const next = firstIndex(list.length, (i) => (list[i]?.slot ?? 0) > slot);
    return (list[next - 1] ?? list[0])?.octaves ?? 0;
  };
}
