/*
 * Question: what cannot be said of this score, and why?
 * Conventions: one sentence a limit, said before all other sentences of its kind; lengths in crotchets.
 * Method: plain counts: how many notes and different keys of the keyboard, how much of the sounding time holds one note alone, how long
 *   bars are, where the file comes from.
 * Source: our own rule; each limit gives its reason.
 * What it does not tell: faults of the file; the reader of scores warns of those.
 */
import { word } from '../base/index.js';
import type { Score } from '../score/index.js';
import { say, wholePiece, type Candidate, type NotesGround } from './teachingNotesGround.js';
import type { Sound } from './sounds.js';

/** Fewer notes than this, `<`, or fewer different pitch classes, leave every key open: a triad belongs to three major keys. */
const LEAST_NOTES = 8;
const LEAST_PITCH_CLASSES = 4;

/** From this share of the sounding time on, `>=`, a score is one line. */
const ONE_LINE_SHARE = 0.95;

/** Bars longer than this on average, `>`, in crotchets, are not counted by anybody: three bars of four. */
const LONGEST_BAR = 12;

/** Why a score has nothing to play, as a sentence. */
export function nothingToPlay(score: Score): string {
  if (/<unpitched\b/.test(score.xml ?? '')) return 'There are only notes without pitch in this score, such as those of percussion; nothing can be said of keys, hands and pedal.';
  if (score.notes.some((note) => !note.cue)) return 'There are only grace notes in this score, and no notes that they belong to.';
  return score.notes.length > 0 ? 'There are only cue notes in this score, which are not played.' : 'There are no notes in this score.';
}

/** Whether there are too few notes to tell a key. */
export function tooFewForKey(sounds: readonly Sound[]): boolean {
  return sounds.length < LEAST_NOTES || new Set(sounds.map((sound) => sound.midi % 12)).size < LEAST_PITCH_CLASSES;
}

/** Whether nearly all of the music is one line, without chords or a second voice. */
export function isOneLine(sounds: readonly Sound[]): boolean {
  let [alone, all, reached] = [0, 0, 0];
  for (const { fromTick, toTick } of sounds) {
    alone += Math.max(0, toTick - Math.max(fromTick, reached));
    all += toTick - fromTick;
    reached = Math.max(reached, toTick);
  }
  // what sounds beside another note is counted in `all` only
  return all > 0 && alone >= ONE_LINE_SHARE * all;
}

/** Whether bar lines are too far apart to count by. */
export function hasNoBarLines({ bars, ticksPerQuarter }: Score): boolean {
  const ticks = bars.reduce((sum, bar) => sum + bar.lengthTicks, 0);
  return bars.length > 0 && ticks > LONGEST_BAR * ticksPerQuarter * bars.length;
}

/** The limits as sentences. */
export function limitCandidates({ score, sounds, language }: NotesGround): readonly Candidate[] {
  const whole = [wholePiece(score)];
  return [
    ...(score.source === 'midi' ? [say(`This comes from a MIDI file: ${word('bar', language)} lines, hands and the spelling of notes are guessed from it, and of touch, slurs and marks it knows nothing.`, whole, 9.9)] : []),
    ...(hasNoBarLines(score) ? [say(`There are no ${word('bar', language)} lines to count by, so nothing is said of phrases, form and beats.`, whole, 9.8)] : []),
    ...(isOneLine(sounds) && sounds.length >= LEAST_NOTES ? [say('This is one line alone: its chords are only hinted at, and nothing is said of them.', whole, 9.4)] : []),
  ];
}
