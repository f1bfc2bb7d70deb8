/**
 * Small readable scores and recordings for the tests of matching, and what a matching says, in one line of words.
 * All music in these tests is invented for them.
 *
 * Written bars, one text a hand: `C4 E4+G4/2 r` is a crotchet, a minim chord, a crotchet's rest; lengths in crotchets after the
 * slash. `grace:D4` and `cue:D4/1` stand before or between them, `C4/4_ _C4/4` is tied, `C4tr` has a trill sign.
 * Each note's id is its hand, bar and place in that bar, chords from below: `r1-2`, `l3-1`, `r1-2b`; `u1-1` in the lower voice.
 */
import { parsePitch } from '../../src/demo/notation.js';
import { alignRecording, type Alignment } from '../../src/align/index.js';
import type { Press } from '../../src/align/press.js';
import type { RecordedNote, Recording } from '../../src/recording/index.js';
import type { Score } from '../../src/score/index.js';
import { backup, bars, cue, grace, head, note, partwise, rest, tieStart, tieStop, type BuiltBar } from '../score/build.js';
import { readText } from '../score/read.js';

/** Divisions of a crotchet here: triplets and semiquavers are whole. */
const DIVISIONS = 24;

/** A written bar: right hand, a second voice of the right hand, left hand; XML before and after the notes; printed number. */
export interface WrittenBar {
  readonly right?: string;
  readonly under?: string;
  readonly left?: string;
  readonly before?: string;
  readonly after?: string;
  readonly number?: string;
}

const TOKEN = /^(grace:|cue:)?(_?)(r|[A-G][#b]?\d(?:\+[A-G][#b]?\d)*)(tr)?(?:\/([\d.]+))?(_?)$/;

interface Voice {
  readonly letter: 'r' | 'u' | 'l';
  readonly bar: string;
}

function written(token: string, place: number, { letter, bar }: Voice): { xml: string; length: number } {
  const [, kind = '', stop = '', names = 'r', trill = '', digits = '1', start = ''] = TOKEN.exec(token) ?? [];
  if (!TOKEN.test(token)) throw new RangeError(`not in the language of these scores: ${token}`);
  const length = Number(digits) * DIVISIONS;
  const shared = { voice: { r: '1', u: '2', l: '5' }[letter], staff: letter === 'l' ? 2 : 1 };
  if (names === 'r') return { xml: rest(length, shared), length };
  const signs = trill ? '<ornaments><trill-mark/></ornaments>' : '';
  const inside = (stop ? tieStop : '') + (start ? tieStart : '');
  const xml = names.split('+').map((name, i) => {
    const options = { ...shared, signs, inside, chord: i > 0, id: `${letter}${bar}-${place}${i ? 'abcdefgh'.charAt(i) : ''}` };
    if (kind === 'grace:') return grace(name, options);
    return kind === 'cue:' ? cue(name, length, options) : note(name, length, options);
  });
  return { xml: xml.join(''), length: kind === 'grace:' ? 0 : length };
}

function voice(text: string | undefined, at: Voice): { xml: string; length: number } {
  const parts = (text ?? '').split(' ').filter((token) => token).map((token, i) => written(token, i + 1, at));
  return { xml: parts.map((part) => part.xml).join(''), length: parts.reduce((sum, part) => sum + part.length, 0) };
}

/** Reads a score from its bars; a bar that is one text alone is the right hand's. */
export function score(written: readonly (WrittenBar | string)[], time = '4/4'): Score {
  const contents = written.map((each, i): BuiltBar => {
    const bar = typeof each === 'string' ? { right: each } : each;
    const number = bar.number ?? String(i + 1);
    const [right, under, left] = [voice(bar.right, { letter: 'r', bar: number }), voice(bar.under, { letter: 'u', bar: number }), voice(bar.left, { letter: 'l', bar: number })];
    const back = (length: number): string => (length ? backup(length) : '');
    const content = [
      i === 0 ? head(time, '<staves>2</staves>', DIVISIONS) : '', bar.before ?? '', right.xml,
      under.xml ? back(right.length) + under.xml : '', left.xml ? back(under.xml ? under.length : right.length) + left.xml : '', bar.after ?? '',
    ];
    return { content: content.join(''), attributes: `number="${number}"` };
  });
  return readText(partwise(bars(contents)));
}

/** A key going down: seconds, MIDI number; a crotchet's length and an ordinary loudness unless said. */
export interface Key {
  readonly onsetS: number;
  readonly pitch: number;
  readonly lengthS?: number;
  readonly velocity?: number;
}

/** Keys struck one after the other from a moment on, `stepS` seconds apart: `keys(0, 0.5, 'C4 E4+G4 - C4')`; "-" strikes none. */
export function keys(fromS: number, stepS: number, names: string): Key[] {
  return names.split(' ').flatMap((chord, i) => (chord === '-' ? [] : chord.split('+').map((name) => ({ onsetS: fromS + i * stepS, pitch: parsePitch(name).midi }))));
}

/** A recording of some keys, in the order that `Recording.notes` asks for. */
export function recording(...lists: readonly (readonly Key[])[]): Recording {
  const sorted = [...lists.flat()].sort((a, b) => a.onsetS - b.onsetS || a.pitch - b.pitch);
  const notes = sorted.map(({ onsetS, pitch, lengthS = 0.4, velocity = 64 }, index): RecordedNote => ({ index, onsetS, releaseS: onsetS + lengthS, pitch, velocity, releaseVelocity: null, hanging: false }));
  return { notes, sustain: [], sostenuto: [], soft: [], durationS: notes.reduce((end, one) => Math.max(end, one.releaseS), 0), limits: [] };
}

/** The same keys as a follower sees them. */
export function presses(...lists: readonly (readonly Key[])[]): Press[] {
  return recording(...lists).notes.map(({ onsetS, pitch }) => ({ onsetS, key: pitch }));
}

/** A score, what was played, and how the two were matched. */
export interface Matched {
  readonly score: Score;
  readonly recording: Recording;
  readonly alignment: Alignment;
}

/** Matches the keys with the score. */
export function match(score: Score, ...lists: readonly (readonly Key[])[]): Matched {
  const played = recording(...lists);
  return { score, recording: played, alignment: alignRecording(score, played) };
}

const from2 = (sign: string, count: number): string => (count > 1 ? `${sign}${count}` : '');

/** A written note: its id, `/2` in its second pass, `@2` in its second attempt. */
function nameOf({ score }: Matched, occurrence: number, attempt = 1): string {
  const { noteIndex, pass } = score.occurrences[occurrence]!;
  return score.notes[noteIndex]!.id + from2('/', pass) + from2('@', attempt);
}

/**
 * What every press is, in time order: `r1-2` the written note; `r1-2^1` that note an octave high; `~r1-2` part of its ornament;
 * `!r1-2` played instead of it; `+r1-2` added near it; `+` added nowhere; `?` nothing at all, which must not be.
 */
export function said(matched: Matched): string {
  const { alignment, recording: played } = matched;
  const words = played.notes.map(() => '?');
  const say = (note: number, word: string): void => { words[note] = words[note] === '?' ? word : `${words[note] ?? ''}&${word}`; };
  for (const pair of alignment.pairs) say(pair.note, nameOf(matched, pair.occurrence, pair.attempt) + (pair.octaveSlip ? `^${pair.octaveSlip}` : ''));
  for (const one of alignment.ornaments) say(one.note, `~${nameOf(matched, one.occurrence)}`);
  for (const one of alignment.added) say(one.note, (one.instead ? '!' : '+') + (one.near === null ? '' : nameOf(matched, one.near)));
  return words.join(' ');
}

/** The missed notes, in score order within each stretch of the route. */
export function missed(matched: Matched): string {
  return matched.alignment.missed.map((one) => nameOf(matched, one.occurrence, one.attempt)).join(' ');
}

/** The route: `1-4`, `2-3/2` in the second pass, `2-3@2` for the second attempt, then the hand that plays alone. */
export function route({ score, alignment }: Matched): string {
  const bar = (visit: number): string => score.bars[score.order[visit]!.barIndex]!.number;
  const words = alignment.route.map((one) => {
    const where = bar(one.fromVisit) + (one.toVisit === one.fromVisit ? '' : `-${bar(one.toVisit)}`) + from2('/', score.order[one.fromVisit]!.pass);
    return where + from2('@', one.attempt) + (one.hands === 'both' ? '' : ` ${one.hands}`);
  });
  return words.join(', ');
}
