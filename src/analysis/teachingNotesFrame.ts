/** The frame: how long, in which metre, how fast, in which key. Sentences for the beginning of the teaching notes. */
import { countInWords, listInWords, sentenceCase, word } from '../base/index.js';
import type { Direction, Score, TimeSignature } from '../score/index.js';
import { bendsPace } from './formEvidence.js';
import { keyInWords } from './names.js';
import { noteInWords, spellingInWords } from './noteNames.js';
import { barNumber, countedBars, isUpbeat, spansInWords, spansOf } from './teachingNotesBars.js';
import { tooFewForKey } from './teachingNotesLimits.js';
import { hasKeys } from './teachingNotesTonality.js';
import { say, valueOf, wholePiece, type Candidate, type NotesGround } from './teachingNotesGround.js';

/** Below this a key is a guess and is said to be one. 0-1, `<`. */
const SURE_OF_KEY = 0.1;

/** More changes of metre or tempo than this are counted, not listed. */
const MOST_CHANGES = 4;

/** Length, metre, tempo; changes of these; the key. */
export function frameCandidates(ground: NotesGround): readonly Candidate[] {
  return [...lengthSentence(ground), ...changeSentences(ground), ...keySentence(ground)];
}

/** "30 bars of 6/8 and an upbeat of a quaver; Andantino, dotted crotchet = 52: about a minute." */
function lengthSentence(ground: NotesGround): readonly Candidate[] {
  const { score, language } = ground;
  const first = score.bars.find((bar) => !isUpbeat(score, bar.index));
  if (first === undefined) return [];
  const count = countedBars(score, wholePiece(score));
  const bars = `${count} ${word(count === 1 ? 'bar' : 'bars', language)} of ${timeInWords(first.time)}`;
  const tempo = tempoInWords(ground);
  const seconds = durationInWords(score);
  const pace = [tempo, seconds].filter((part) => part !== '').join(', ');
  return [say(`${sentenceCase(bars)}${upbeatInWords(ground)}${pace === '' ? '' : `; ${pace}`}.`, [wholePiece(score)], 10)];
}

/** " and an upbeat of a quaver". */
function upbeatInWords({ score, language }: NotesGround): string {
  const bar = score.bars[0];
  if (bar === undefined || !isUpbeat(score, 0)) return '';
  const value = valueOf(bar.lengthTicks / score.ticksPerQuarter);
  const name = word('upbeat', language);
  const length = value === null ? '' : ` of ${/^[ae]/.test(word(value, language)) ? 'an' : 'a'} ${word(value, language)}`;
  return ` and ${/^[aeiou]/.test(name) ? 'an' : 'a'} ${name}${length}`;
}

/** "6/8". */
function timeInWords({ beats, beatType }: TimeSignature): string {
  return `${beats}/${beatType}`;
}

/** "Andantino, dotted crotchet = 52"; "" where nothing is printed at the beginning. */
function tempoInWords({ score, language }: NotesGround): string {
  const mark = openingTempo(score);
  return mark === undefined ? '' : tempoMark(mark, language);
}

/** The tempo printed over the first bars. */
function openingTempo(score: Score): Direction | undefined {
  const last = score.bars[1]?.index ?? 0;
  return score.directions.find((mark) => mark.kind === 'tempo' && mark.text.trim() !== '' && mark.barIndex <= last);
}

/** A printed tempo in the words of the language: the unit of its figure is named anew. */
function tempoMark({ text, value }: Direction, language: NotesGround['language']): string {
  const [, words = '', unit, dots = '', figure] = /^(.*?)\s*(?:\b(breve|whole|half|quarter|eighth|16th)(\.*) = ([\d.]+))?$/.exec(text.trim()) ?? [];
  const crotchets = { breve: 8, whole: 4, half: 2, quarter: 1, eighth: 0.5, '16th': 0.25 }[unit ?? ''];
  const name = crotchets === undefined ? null : valueOf(crotchets * (2 - 2 ** -dots.length));
  const rate = name === null || value === null ? '' : `${word(name, language)} = ${figure ?? ''}`;
  return [words.replace(/\s*\bM\.\s?M\.?$/, '').replace(/[\s.,;]+$/, ''), rate].filter((part) => part !== '').join(', ');
}

/** "about 70 seconds"; "" without a tempo in figures. */
function durationInWords(score: Score): string {
  const marks = score.directions.filter((mark) => mark.kind === 'tempo' && mark.value !== null);
  const mark = marks[0];
  const last = score.order[score.order.length - 1];
  const lastBar = last === undefined ? undefined : score.bars[last.barIndex];
  if (mark === undefined || mark.value === null || !/=/.test(mark.text) || last === undefined || lastBar === undefined) return '';
  const distinct = new Set(marks.map((each) => each.value));
  if (distinct.size > 1) return '';
  const seconds = ((last.startTick + lastBar.lengthTicks) / score.ticksPerQuarter) * (60 / mark.value);
  const repeats = score.order.length > score.bars.length ? ' with repeats' : '';
  return `about ${seconds < 100 ? `${Math.max(5, 5 * Math.round(seconds / 5))} seconds` : minutesInWords(seconds)}${repeats}`;
}

/** Halves of minutes. */
function minutesInWords(seconds: number): string {
  const halves = Math.round(seconds / 30);
  const whole = Math.floor(halves / 2);
  return `${countInWords(whole)}${halves % 2 === 1 ? ' and a half' : ''} minutes`;
}

/** Where metre and tempo change for good. */
function changeSentences(ground: NotesGround): readonly Candidate[] {
  return [...metreChanges(ground), ...tempoChanges(ground)];
}

/** "The metre changes to 3/4 in bar 17." */
function metreChanges({ score, language }: NotesGround): readonly Candidate[] {
  const changed = score.bars.filter((bar, i) => {
    const before = score.bars[i - 1];
    return before !== undefined && (before.time.beats !== bar.time.beats || before.time.beatType !== bar.time.beatType);
  });
  if (changed.length === 0) return [];
  const spans = spansOf(changed.map((bar) => bar.index));
  const text = changed.length > MOST_CHANGES
    ? `The metre changes ${changed.length} times, first in ${word('bar', language)} ${barNumber(score, changed[0]?.index ?? 0)}.`
    : `The metre changes to ${listInWords(changed.map((bar) => `${timeInWords(bar.time)} in ${word('bar', language)} ${barNumber(score, bar.index)}`))}.`;
  return [say(text, spans, 7)];
}

/** "The tempo changes: Più lento in bar 17 and Tempo I in bar 40." */
function tempoChanges({ score, language }: NotesGround): readonly Candidate[] {
  const opening = openingTempo(score);
  const marks = score.directions.filter((mark) => mark.kind === 'tempo' && mark !== opening && /[a-z]{4}/i.test(mark.text) && !bendsPace(mark.text));
  const later = marks.filter((mark) => (opening === undefined || mark.onsetTick > opening.onsetTick) && /^[^\d=]*[a-z]{4}/i.test(mark.text.replace(/\b(breve|whole|half|quarter|eighth|16th)\.* = .*/, '')));
  if (later.length === 0 || later.length > MOST_CHANGES) return [];
  const named = later.map((mark) => `${tempoMark(mark, language)} in ${word('bar', language)} ${barNumber(score, mark.barIndex)}`);
  return [say(`The tempo changes: ${listInWords(named)}.`, spansOf(later.map((mark) => mark.barIndex)), 6)];
}

/** The key of the whole, with what its signature alone does not tell. */
function keySentence(ground: NotesGround): readonly Candidate[] {
  const { score, harmony } = ground;
  const key = harmony.globalKey;
  if (key === null) return [];
  if (tooFewForKey(ground.sounds)) return [say('There are too few different notes to tell a key.', [wholePiece(score)], 9)];
  if (!hasKeys(ground)) return [say('The notes keep to no key, so nothing is said of keys and cadences.', [wholePiece(score)], 9)];
  if (key.confidence < SURE_OF_KEY) return [say(`The key is hard to tell; ${keyInWords(key)} fits best.`, [wholePiece(score)], 9)];
  const colour = key.colour === null ? '' : key.colour === 'natural minor' ? ', without a raised leading note' : ` with a ${key.colour} colour`;
  const leading = key.mode === 'minor' && key.colour === null ? leadingNote(ground) : '';
  const picardy = key.picardyClose ? closeInMajor(ground) : '';
  const throughout = key.colour === null && score.bars.length >= 8 && harmony.keys.length > 0 && harmony.keys.every((span) => span.tonic === key.tonic && span.mode === key.mode) ? ' throughout' : '';
  return [say(`The key is ${keyInWords(key)}${throughout}${colour}${leading}${picardy}${beginsIn(ground)}.`, [wholePiece(score)], 9.5)];
}

/** "; it begins in F minor": where the first stretch stands in another key, long enough to be heard as one, or in the relative key on its own tonic chord. */
function beginsIn({ score, harmony }: NotesGround): string {
  const [key, first] = [harmony.globalKey, harmony.keys[0]];
  const bar = score.bars[0];
  if (key === null || first === undefined || bar === undefined || (first.tonic === key.tonic && first.mode === key.mode)) return '';
  const opening = harmony.harmonies[0];
  const relative = first.mode !== key.mode && (first.mode === 'minor' ? (first.tonic + 3) % 12 === key.tonic : (first.tonic + 9) % 12 === key.tonic);
  const onTonic = relative && opening?.root === first.tonic && opening.quality === first.mode;
  return onTonic || first.toTick - first.fromTick >= CLOSING_BARS * bar.nominalTicks ? `; it begins in ${keyInWords(first)}` : '';
}

/** From so many bars on, the last key is a close in another mode, not a chord. */
const CLOSING_BARS = 4;

/** "; it closes in F major" after some bars of it, otherwise "; the last chord is D major, a Tierce de Picardie". */
function closeInMajor({ score, harmony, language }: NotesGround): string {
  const tonic = noteInWords(harmony.globalKey?.spelling ?? '');
  const last = harmony.keys[harmony.keys.length - 1];
  const inMajor = last !== undefined && last.mode === 'major' && last.tonic === harmony.globalKey?.tonic && score.bars.length - last.barIndex >= CLOSING_BARS;
  return inMajor ? `; it closes in ${tonic} major` : `; the last chord is ${tonic} major, a ${word('picardyThird', language)}`;
}

/** ", with G sharp as its leading note (bars 4, 7 and 16)": the accidental that the signature of a minor key does not hold. */
function leadingNote({ score, harmony, language }: NotesGround): string {
  const tonic = harmony.globalKey?.tonic ?? 0;
  const notes = score.notes.filter((note) => !note.cue && (((note.pitch.midi + 1 - tonic) % 12) + 12) % 12 === 0);
  const first = notes[0];
  if (first === undefined) return '';
  const spans = spansOf(notes.map((note) => note.barIndex));
  const where = spans.length > 4 ? '' : `, in ${spansInWords(score, spans, language)}`;
  return `, with ${spellingInWords(first.pitch, true)} as its leading note${where}`;
}
