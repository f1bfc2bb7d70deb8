import type { ChannelChoice } from './channels.js';
import type { KeyPress } from './pairNotes.js';
import type { Pedals } from './pedals.js';
import type { RecordingLimit } from './types.js';

/** Least share (>=) of notes on one and the same velocity for an instrument to count as without touch response. */
export const NO_TOUCH_SHARE = 0.95;

/** Fewest notes (>=) from which equal velocities say anything about the instrument: even fingers vary over ten notes. */
export const NO_TOUCH_LEAST_NOTES = 10;

/** A pedal that only ever sends values up to this (<=) … */
export const SWITCH_UP = 3;

/** … or from this on (>=) is a switch; a continuous one passes through the values between. Some switches are not sent as exactly 0 and 127. */
export const SWITCH_DOWN = 120;

/** Nobody's foot is down, or up, for less (<) than this, seconds: down and up again takes about a tenth of a second at the least (common practice). */
const LEAST_FOOT_S = 0.07;

/** The pedal begins to hold from this controller value on (>=): half of "on". Our own rule. */
const LINGERS = 32;

/** From this share (>=) of the foot's moves too quick for one on the pedal was hardly a foot's. Our own rule: people who pedal a great deal stay under a tenth. */
export const GUESSED_SHARE = 0.2;

/** Fewest moves (>=) that tell. */
export const GUESSED_LEAST_MOVES = 12;

/** Longest time (<=) before the first note that needs no remark, seconds: reaching from the button to the keys. */
export const LONG_SILENCE_S = 10;

/** What the limits are drawn from. */
export interface Evidence {
  /** The piano's presses, by onset; at least one. */
  readonly presses: readonly KeyPress[];
  readonly pedals: Pedals;
  /** True where the sustain pedal was sent the wrong way round; `pedals` has it turned. */
  readonly inverted: boolean;
  readonly channels: ChannelChoice;
  /** Presses folded into another. */
  readonly folded: number;
  /** True where the file breaks off or is damaged. */
  readonly broken: boolean;
  readonly durationS: number;
}

/** What this recording cannot tell or had to leave out, a sentence each, the gravest first. */
export function findLimits(evidence: Evidence): readonly RecordingLimit[] {
  return [
    cutFile(evidence), drums(evidence), accompaniment(evidence), noTouch(evidence), inverted(evidence), pedal(evidence), guessed(evidence), noReleaseVelocity(evidence),
    hanging(evidence), doubled(evidence), longSilence(evidence),
  ].flat();
}

/** One limit or none. */
type Found = readonly RecordingLimit[];

/** The end is that of what could be read, so the teacher can tell how much is missing. */
function cutFile({ broken, durationS }: Evidence): Found {
  const text = `The file breaks off or is damaged. Everything that could be read is here; it ends ${durationS.toFixed(1)} seconds into the recording.`;
  return broken ? [{ kind: 'cut-file', text }] : [];
}

function drums({ channels }: Evidence): Found {
  return channels.drums ? [{ kind: 'drums', text: 'The file holds a drum track (channel 10). It is left out.' }] : [];
}

/** Channels by the numbers printed on instruments, from 1. */
function accompaniment({ channels }: Evidence): Found {
  const numbers = channels.accompaniment.map((channel) => channel + 1);
  const which = numbers.length === 1 ? 'channel' : 'channels';
  const text = `The file holds an accompaniment on other sounds (${which} ${numbers.join(', ')}). Only the piano is read.`;
  return numbers.length > 0 ? [{ kind: 'accompaniment', text }] : [];
}

/** By the most frequent velocity, so that a few accented keys of a keyboard with two levels do not hide it. */
function noTouch({ presses }: Evidence): Found {
  const counts = new Map<number, number>();
  for (const { velocity } of presses) counts.set(velocity, (counts.get(velocity) ?? 0) + 1);
  const most = Math.max(...counts.values());
  const text = 'Nearly all notes are equally loud, as from keys without touch response: dynamics and balance are not judged.';
  return presses.length >= NO_TOUCH_LEAST_NOTES && most >= NO_TOUCH_SHARE * presses.length ? [{ kind: 'no-touch', text }] : [];
}

/** What was sent is turned round, and the teacher can tell the pupil. */
function inverted(evidence: Evidence): Found {
  const text = 'The pedal is wired the wrong way round: the instrument sent down for up. It is read turned round; on the instrument its polarity can be switched.';
  return evidence.inverted ? [{ kind: 'inverted-pedal', text }] : [];
}

/** Only the damper pedal: the other two are switches on most instruments, and rarely used by pupils. */
function pedal({ pedals: { sustain } }: Evidence): Found {
  if (!sustain.some((point) => point.value > SWITCH_UP)) {
    return [{ kind: 'no-pedal', text: 'The recording holds no pedal: either it was not used or the instrument did not send it.' }];
  }
  const between = sustain.some((point) => point.value > SWITCH_UP && point.value < SWITCH_DOWN);
  const text = 'The pedal was sent only as up or down, so half pedal and slow changes cannot be seen.';
  return between && new Set(sustain.map((point) => point.value)).size > 2 ? [] : [{ kind: 'switch-pedal', text }];
}

/** Recordings made from sound have a pedal that somebody's program supposed; it flickers. */
function guessed({ pedals: { sustain } }: Evidence): Found {
  const moves = sustain.filter(({ value }, i) => value >= LINGERS !== (sustain[i - 1]?.value ?? 0) >= LINGERS);
  const quick = moves.filter(({ timeS }, i) => i > 0 && timeS - (moves[i - 1]?.timeS ?? 0) < LEAST_FOOT_S).length;
  const text = 'The pedal often moves more quickly than a foot can, as if it had been guessed from the sound: what is said of it is less sure.';
  return moves.length >= GUESSED_LEAST_MOVES && quick >= GUESSED_SHARE * moves.length ? [{ kind: 'guessed-pedal', text }] : [];
}

/** Note-offs that all carry one value carry the value of their maker, not of a finger. */
function noReleaseVelocity({ presses }: Evidence): Found {
  const given = new Set(presses.map((press) => press.releaseVelocity).filter((velocity) => velocity !== null));
  const text = 'The instrument did not measure how fast the keys were let go.';
  return given.size === 0 || (given.size === 1 && presses.length > 1) ? [{ kind: 'no-release-velocity', text }] : [];
}

/** A cut file is the usual reason, a lost message another. */
function hanging({ presses }: Evidence): Found {
  const count = presses.filter((press) => press.hanging).length;
  const text = `${amount(count, 'note is', 'notes are')} never released in the file and taken as held to its end.`;
  return count > 0 ? [{ kind: 'hanging-notes', text }] : [];
}

/** Two causes with one name: a second sound on the same keys, and releases that are missing. */
function doubled({ presses, channels, folded }: Evidence): Found {
  const count = presses.filter((press) => press.doubled).length;
  const restruck = `${amount(count, 'key is', 'keys are')} struck again without having been released: the second stroke ends the first note.`;
  const layered = 'A layered sound or a second track doubles notes: each key press is counted once.';
  const texts = [...(folded > 0 || channels.layers.length > 0 ? [layered] : []), ...(count > 0 ? [restruck] : [])];
  return texts.length > 0 ? [{ kind: 'doubled-notes', text: texts.join(' ') }] : [];
}

/** From the start of the file to the first key, in whole seconds. */
function longSilence({ presses }: Evidence): Found {
  const first = presses[0]?.onsetS ?? 0;
  const text = `The playing begins only ${Math.round(first)} seconds after the recording was started.`;
  return first > LONG_SILENCE_S ? [{ kind: 'long-silence', text }] : [];
}

/** A count with its noun and verb, written out where it is one. */
function amount(count: number, one: string, many: string): string {
  return count === 1 ? `One ${one}` : `${count} ${many}`;
}
