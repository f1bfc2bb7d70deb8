/*
 * Question: what does the writing under one harmony ask of the foot?
 * Conventions: written ticks; MIDI numbers; a harmony's own notes are those that begin in it, with what is held over from before.
 * Method: plain questions to the notes: is the bass left while the figure lies out of reach, are the notes short, do they run low down,
 *   is there a general rest, does one open or high sound stand long enough to ring?
 * Source: teaching practice, no published source; each limit gives its reason.
 * What it does not tell: the sound that a player wants.
 */
import type { Harmony, HarmonyAnalysis } from '../harmony/index.js';
import { beatTicks, type Score } from '../score/index.js';
import { beginningIn, firstFrom, type Sound } from './sounds.js';

/** What is known of the writing under one harmony. */
export interface HarmonyFacts {
  readonly harmony: Harmony;
  readonly sounds: readonly Sound[];
  /** Lowest note that begins here, or null. */
  readonly bass: Sound | null;
  /** The key of the bass has to be let go while the rest of the figure lies out of reach. */
  readonly bassLeft: boolean;
  readonly staccato: boolean;
  readonly lowRun: boolean;
  /** A silence of at least a beat in all hands up to the end of the harmony begins here; null without one. */
  readonly silentFrom: number | null;
  /** Only notes above the dampers' best hold: all of them high. */
  readonly highOnly: boolean;
  /** Few notes, held long: the sound itself is the matter. */
  readonly longSound: boolean;
  readonly letRing: boolean;
  /** A full chord of at least three pitch classes, the left hand sounding most of the time. */
  readonly sustained: boolean;
}

/** A ninth is what an adult's hand holds (teaching practice); a note further above the bass, `>`, is out of reach. Semitones. */
const REACH = 14;

/** Basses lie up to this: the G below middle C. MIDI number, inclusive. */
const HIGHEST_BASS = 55;

/** From this share of short notes on, `>=`, a harmony is played dry. */
const STACCATO_SHARE = 0.5;

/** So many notes by step, none longer than this many crotchets, make a run; low down it blurs at once. */
const RUN_NOTES = 5;
const RUN_QUARTERS = 0.34;

/** All notes from here up, `>=`, are high: the C two octaves above middle C; they fade before they can clash. */
const HIGH = 84;

/** What the questions need besides the notes. */
interface FactsGround {
  readonly sounds: readonly Sound[];
  /** For every sound the latest end of it and all before it. */
  readonly reached: readonly number[];
  readonly ticksPerQuarter: number;
  readonly beat: number;
}

/** The facts of every harmony. */
export function harmonyFacts(score: Score, { harmonies }: Pick<HarmonyAnalysis, 'harmonies'>, sounds: readonly Sound[]): readonly HarmonyFacts[] {
  const reached: number[] = [];
  for (const sound of sounds) reached.push(Math.max(reached[reached.length - 1] ?? 0, sound.toTick));
  return harmonies.map((harmony) => {
    const bar = score.bars[harmony.barIndex];
    return factsOf(harmony, { sounds, reached, ticksPerQuarter: score.ticksPerQuarter, beat: bar === undefined ? score.ticksPerQuarter : beatTicks(score, bar) });
  });
}

/** The facts of one harmony. */
function factsOf(harmony: Harmony, ground: FactsGround): HarmonyFacts {
  const { fromTick, toTick } = harmony;
  const sounds = beginningIn(ground.sounds, fromTick, toTick);
  const bass = lowest(sounds.filter((sound) => sound.midi <= HIGHEST_BASS));
  return {
    harmony,
    sounds,
    bass,
    bassLeft: bass !== null && isLeft(bass, sounds, ground),
    staccato: share(accompaniment(sounds), (sound) => sound.staccato) >= STACCATO_SHARE,
    lowRun: hasLowRun(sounds, ground.ticksPerQuarter),
    silentFrom: silence(ground, harmony),
    highOnly: sounds.length > 0 && sounds.every((sound) => sound.midi >= HIGH),
    longSound: sounds.length > 0 && sounds.every((sound) => sound.toTick >= Math.min(toTick, sound.fromTick + 2 * ground.beat)),
    letRing: sounds.some((sound) => sound.letRing),
    sustained: isSustained(sounds, harmony),
  };
}

/** Whether the bass's key is let go before a note of the same hand and bar sounds that cannot be reached from it; a longer rest between leaves nothing to keep. */
function isLeft(bass: Sound, sounds: readonly Sound[], { beat }: FactsGround): boolean {
  const after = sounds.filter((sound) => sound.left === bass.left && sound.barIndex === bass.barIndex && sound.fromTick >= bass.toTick);
  return after.some((sound) => sound.midi - bass.midi > REACH) && (after[0]?.fromTick ?? Infinity) - bass.toTick < beat;
}

/** The left hand sounds for at least this share of a harmony that is held; `>=`. */
const HELD_SHARE = 0.7;

/** A full chord that is held. */
function isSustained(sounds: readonly Sound[], { fromTick, toTick }: Harmony): boolean {
  const left = sounds.filter((sound) => sound.left);
  const reach = left.reduce((covered, sound) => ({ end: Math.max(covered.end, sound.toTick), sum: covered.sum + Math.max(0, Math.min(toTick, sound.toTick) - Math.max(covered.end, sound.fromTick)) }), { end: fromTick, sum: 0 });
  return new Set(sounds.map((sound) => sound.midi % 12)).size >= 3 && reach.sum >= HELD_SHARE * (toTick - fromTick);
}

/** The five octaves of the piano to about 1800: F an octave below the bass stave to the F above the treble. MIDI numbers, inclusive. */
const FIVE_OCTAVES = { lowest: 29, highest: 89 } as const;

/** Dry playing is the rule up to about this year. */
const DRY_UNTIL = 1800;

/**
 * Whether the page looks later than about 1800, before which dry playing is the rule unless marked: notes beyond five octaves or hairpins,
 * and no composer whose dates in the file end before. Metronome marks say nothing: editors add them to older music.
 */
export function isRomantic(score: Score, sounds: readonly Sound[]): boolean {
  const years = (score.composer.match(/\b1[5-9]\d\d\b/g) ?? []).map(Number);
  if (years.length > 0 && Math.max(...years) <= DRY_UNTIL) return false;
  const beyond = sounds.some((sound) => sound.midi < FIVE_OCTAVES.lowest || sound.midi > FIVE_OCTAVES.highest);
  return beyond || score.directions.some((mark) => mark.text === '<' || mark.text === '>');
}

/** The lower stave, or everything where it is empty. */
function accompaniment(sounds: readonly Sound[]): readonly Sound[] {
  const left = sounds.filter((sound) => sound.left);
  return left.length > 0 ? left : sounds;
}

/** A run by step in short notes that lies low. */
function hasLowRun(sounds: readonly Sound[], ticksPerQuarter: number): boolean {
  const line = sounds.filter((sound) => sound.left && sound.midi <= HIGHEST_BASS && sound.toTick - sound.fromTick <= RUN_QUARTERS * ticksPerQuarter);
  let length = 1;
  return line.some((sound, i) => {
    const before = line[i - 1];
    const step = before === undefined ? 0 : Math.abs(sound.midi - before.midi);
    length = step === 1 || step === 2 ? length + 1 : 1;
    return length >= RUN_NOTES;
  });
}

/** Where a general rest of a beat or more begins that lasts to the harmony's end. */
function silence({ sounds, reached, beat }: FactsGround, { fromTick, toTick }: Harmony): number | null {
  const end = reached[firstFrom(sounds, toTick) - 1];
  return end !== undefined && end >= fromTick && toTick - end >= beat ? end : null;
}

/** The lowest of some sounds; of several the first. */
function lowest(sounds: readonly Sound[]): Sound | null {
  return sounds.reduce<Sound | null>((low, sound) => (low === null || sound.midi < low.midi ? sound : low), null);
}

/** Share of the items of which something is true; 0 of none. */
function share<T>(items: readonly T[], test: (item: T) => boolean): number {
  return items.length === 0 ? 0 : items.filter(test).length / items.length;
}
