/*
 * Question: what would the foot do where the score says nothing?
 * Conventions: one proposal a harmony, in order; reasons are clauses for the teacher.
 * Method: music asks for the pedal where words do, or where in its section the bass has to be left often enough. There the foot changes with
 *   each new root or mode, stays through inversions, at most once a beat; short notes, low runs and general rests are dry; open,
 *   high and long sounds ring. Elsewhere only a bass that is left takes the pedal, for its harmony alone, and that not in music to about 1800.
 * Source: teaching practice, no published source.
 * What it does not tell: half pedal, or the colour that a player adds by choice.
 */
import type { Harmony } from '../harmony/index.js';
import { chordInWords, chordOverBass } from './names.js';
import { noteInWords } from './noteNames.js';
import type { HarmonyFacts } from './pedalPlanFacts.js';
import type { PedalEntry, PedalKind } from './pedalPlanTypes.js';
import { wordsAt, type WordedStretch } from './pedalPlanPrinted.js';

/** What the foot should do over a stretch, before it is an entry. */
export type Proposal = Pick<PedalEntry, 'fromTick' | 'toTick' | 'kind' | 'reason' | 'clearS'>;

/** The dampers need so long, seconds, below the C an octave below middle C, below middle C, and above (teaching practice). */
const CLEAR_S = { low: 0.25, middle: 0.15, high: 0.1 } as const;

/** A section asks for the pedal where the bass is left in at least this share of its harmonies; `>=`. */
const ASKING_SHARE = 0.3;

/** Or where at least this share of its harmonies is held in full chords, on a page later than about 1800; `>=`. */
const SUSTAINED_SHARE = 0.6;

/** One harmony over so many crotchets with long notes alone is a sound to let ring. */
const RING_QUARTERS = 6;

/** Why short notes take no pedal. */
export const STACCATO_REASON = 'the accompaniment is staccato';

/** A stretch of the piece that is judged as one, such as a section. */
export interface Ground {
  readonly facts: readonly HarmonyFacts[];
  readonly words: readonly WordedStretch[];
  /** Whether the page looks later than about 1800; see `isRomantic`. */
  readonly romantic: boolean;
  readonly ticksPerQuarter: number;
  /** Length of a beat at a tick. */
  readonly beatAt: (tick: number) => number;
}

/** Proposals for all harmonies of a stretch, joined where the foot does not move. */
export function proposals(ground: Ground): readonly Proposal[] {
  const asks = isAskedFor(ground);
  const list: Proposal[] = [];
  ground.facts.forEach((facts, i) => {
    const before = list[list.length - 1];
    const context = { before, past: ground.facts[i - 1], next: ground.facts[i + 1], ground };
    for (const proposal of proposed(facts, asks, context)) add(list, proposal);
  });
  return list;
}

/** Whether a stretch asks for the pedal: basses that are left, or, on a page of the nineteenth century, chords that are held and never short. */
function isAskedFor({ facts, romantic }: Ground): boolean {
  const left = facts.filter((each) => each.bassLeft && !each.staccato).length;
  const sustained = facts.filter((each) => each.sustained && !each.staccato).length;
  return (left > 0 && left >= ASKING_SHARE * facts.length) || (romantic && sustained > 0 && sustained >= SUSTAINED_SHARE * facts.length);
}

/** What stands around a harmony. */
interface Context {
  readonly before: Proposal | undefined;
  readonly past: HarmonyFacts | undefined;
  readonly next: HarmonyFacts | undefined;
  readonly ground: Ground;
}

/** Adds a proposal; one that only goes on lengthens the one before. */
function add(list: Proposal[], proposal: Proposal): void {
  const before = list[list.length - 1];
  const goesOn = before !== undefined && (proposal.reason === '' || (proposal.kind === before.kind && proposal.kind !== 'change' && proposal.kind !== 'down' && proposal.reason === before.reason));
  if (goesOn) list[list.length - 1] = { ...before, toTick: proposal.toTick };
  else list.push(proposal);
}

/** The proposals of one harmony: itself, and the rest at its end. */
function proposed(facts: HarmonyFacts, asks: boolean, context: Context): readonly Proposal[] {
  const { fromTick, toTick } = facts.harmony;
  const main = ofHarmony(facts, asks, context);
  const silent = facts.silentFrom;
  if (silent === null || main.kind === 'none' || main.kind === 'ring' || main.kind === 'up') return [main];
  const rest: Proposal = { fromTick: Math.max(silent, fromTick), toTick, kind: 'up', reason: 'a rest for both hands that must be silent', clearS: null };
  return silent <= fromTick ? [rest] : [{ ...main, toTick: silent }, rest];
}

/** What the foot does with a harmony, its closing rest left out. */
function ofHarmony(facts: HarmonyFacts, asks: boolean, context: Context): Proposal {
  const worded = wordsAt(context.ground.words, facts.harmony.fromTick);
  const plain = (kind: PedalKind, reason: string): Proposal => ({ fromTick: facts.harmony.fromTick, toTick: facts.harmony.toTick, kind, reason, clearS: null });
  if (worded?.asks === 'dry') return plain('none', `marked "${worded.text}"`);
  const rings = ringing(facts, worded, context);
  if (rings !== null) return withFoot(facts, context, { kind: 'ring', reason: rings });
  if (facts.staccato) return plain('none', STACCATO_REASON);
  if (facts.lowRun) return plain('none', 'a run in the low register, which the pedal would blur');
  const wanted = asks || worded?.asks === 'pedal' || (facts.bassLeft && context.ground.romantic);
  if (!wanted) return plain('none', 'the hands hold what is written');
  return held(facts, context);
}

/** The pedal goes down, is changed, or stays as it is ("" as the reason). */
function held(facts: HarmonyFacts, context: Context): Proposal {
  const { harmony } = facts;
  const { before, past } = context;
  const stays = isDown(before) && past !== undefined && (sameSound(past.harmony, harmony) || tooSoon(facts, context));
  if (stays) return { fromTick: harmony.fromTick, toTick: harmony.toTick, kind: 'change', reason: '', clearS: null };
  const chord = chordOverBass(harmony);
  const bass = facts.bassLeft ? `; only the pedal keeps the low ${noteInWords(harmony.bassName)}` : '';
  const moving = isDown(before) ? (chord === '' ? 'new harmony' : `new harmony: ${chord}`) : chord === '' ? 'here' : chord;
  return withFoot(facts, context, { kind: 'down', reason: `${moving}${bass}` });
}

/** Pressed with a lift before it where the pedal was down; then the dampers need their time. */
function withFoot({ harmony, bass }: HarmonyFacts, { before }: Context, { kind, reason }: Pick<Proposal, 'kind' | 'reason'>): Proposal {
  const lifts = isDown(before);
  const clearS = lifts ? clearing(bass?.midi ?? 127) : null;
  return { fromTick: harmony.fromTick, toTick: harmony.toTick, kind: kind === 'down' && lifts ? 'change' : kind, reason, clearS };
}

/** Seconds that the dampers need over a bass. */
export function clearing(bassMidi: number): number {
  if (bassMidi < 48) return CLEAR_S.low;
  return bassMidi < 60 ? CLEAR_S.middle : CLEAR_S.high;
}

/** Whether the foot is down at the end of a proposal. */
function isDown(proposal: Proposal | undefined): boolean {
  return proposal !== undefined && (proposal.kind === 'down' || proposal.kind === 'change' || proposal.kind === 'ring');
}

/** The third that a quality has: major and minor clash, everything else may go on ringing. */
function sameSound(first: Harmony, second: Harmony): boolean {
  if (first.root === null || first.root !== second.root) return false;
  const minor = (quality: Harmony['quality']): boolean => quality.startsWith('minor') || quality === 'diminished' || quality === 'halfDiminishedSeventh' || quality === 'diminishedSeventh';
  return (first.quality === 'cadentialSixFour') === (second.quality === 'cadentialSixFour') && minor(first.quality) === minor(second.quality);
}

/** Less than a beat since the foot moved, or a harmony off the beat that is over before the next beat. */
function tooSoon({ harmony }: HarmonyFacts, { before, next, ground }: Context): boolean {
  const beat = ground.beatAt(harmony.fromTick);
  const onBeat = harmony.offset * ground.ticksPerQuarter % beat === 0;
  if (before !== undefined && harmony.fromTick - before.fromTick < beat && before.kind !== 'none') return !onBeat;
  return !onBeat && next !== undefined && next.harmony.fromTick - harmony.fromTick < beat;
}

/** Why a sound should ring, or null. */
function ringing(facts: HarmonyFacts, worded: WordedStretch | undefined, { ground }: Context): string | null {
  const { harmony } = facts;
  const quarters = (harmony.toTick - harmony.fromTick) / ground.ticksPerQuarter;
  if (facts.sounds.length === 0 || facts.staccato) return null;
  if (worded?.asks === 'ring') return `marked "${worded.text}": let it ring`;
  if (facts.letRing) return 'marked to ring on: let it ring';
  if (quarters >= RING_QUARTERS / 2 && harmony.quality === 'openFifth' && facts.longSound) return `${chordInWords(harmony)}, long and open: let it ring`;
  if (quarters >= RING_QUARTERS && facts.longSound) return 'one long sound: let it ring';
  return quarters >= RING_QUARTERS / 2 && facts.highOnly ? 'all of it is high and fades by itself: let it ring' : null;
}
