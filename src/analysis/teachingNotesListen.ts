/** What an ear should wait for, in sentences: turns of the harmony, dissonance and its release, the bass, silence, what rings. */
import { sentenceCase, word } from '../base/index.js';
import { barAtTick, beatTicks } from '../score/index.js';
import { chordInWords } from './names.js';
import { bassLines } from './teachingNotesBass.js';
import { cadenceInWords, isPlain } from './teachingNotesHarmony.js';
import { hasChords } from './teachingNotesTonality.js';
import { barsInWords, spansInWords, spansOf } from './teachingNotesBars.js';
import { say, type Candidate, type NotesGround } from './teachingNotesGround.js';

/** Below this a chord is not sure enough for a sentence; `<`. */
const SURE_OF_CHORD = 0.6;

/** The suspensions of the textbooks; others are better called held notes. */
const SUSPENSIONS: ReadonlySet<string> = new Set(['9-8', '7-6', '4-3', '2-3']);

/** More suspensions than this many bars hold are the style of the piece, not places to wait for. */
const MOST_SUSPENSIONS = 6;

/** A remark on more stretches than this names no place any more. */
const MOST_PLACES = 6;

/** Silences told at most. */
const MOST_SILENCES = 4;

/** Everything worth an ear. */
export function listenCandidates(ground: NotesGround): readonly Candidate[] {
  const chords = hasChords(ground) ? [...interrupted(ground), ...suspensions(ground), ...bassLines(ground)] : [];
  return [...chords, ...quickChanges(ground), ...silences(ground), ...ringing(ground)];
}

/** "Bar 24: after E seventh F major comes where A minor is expected (interrupted cadence)." */
function interrupted({ score, harmony, language }: NotesGround): readonly Candidate[] {
  return harmony.cadences.filter((cadence) => cadence.kind === 'interrupted' && isPlain(harmony.harmonies, cadence)).slice(0, 2).flatMap((cadence) => {
    const at = harmony.harmonies.findIndex((one) => one.fromTick === cadence.tick);
    const [before, here] = [harmony.harmonies[at - 1], harmony.harmonies[at]];
    if (before === undefined || here === undefined || chordInWords(here) === '' || chordInWords(before) === '') return [];
    const place = { fromBar: cadence.barIndex, toBar: cadence.barIndex };
    const text = `${sentenceCase(barsInWords(score, place, language))}: ${chordInWords(before)} leads to ${chordInWords(here)} instead of home (${cadenceInWords('interrupted', language)}).`;
    return [say(text, [place], 8)];
  });
}

/** "Bars 4 and 8: suspensions (4-3, 7-6); lean on the held note and let its resolution be softer." */
function suspensions({ score, harmony, language }: NotesGround): readonly Candidate[] {
  const found = harmony.harmonies.filter((one) => one.confidence >= SURE_OF_CHORD).flatMap((one) => one.nonChordNotes.filter((note) => note.kind === 'suspension' && SUSPENSIONS.has(note.figure ?? '')));
  const bars = found.flatMap((note) => score.notes[note.noteIndex]?.barIndex ?? []);
  const figures = [...new Set(found.flatMap((note) => note.figure ?? []))].slice(0, 3);
  if (bars.length === 0 || new Set(bars).size > MOST_SUSPENSIONS) return [];
  const spans = spansOf(bars);
  const one = found.length === 1;
  return [say(`${sentenceCase(spansInWords(score, spans, language))}: ${one ? 'a suspension' : 'suspensions'} (${figures.join(', ')}). Lean on the held note and let its resolution be softer.`, spans, 6)];
}

/** "Bars 7, 23 and 26: two pedal changes in the bar. Is the first harmony gone when the second sounds?" */
function quickChanges({ score, pedalPlan, language }: NotesGround): readonly Candidate[] {
  const counts = new Map<number, number>();
  for (const entry of pedalPlan.entries) if (entry.kind === 'change' || entry.kind === 'down') counts.set(entry.barIndex, (counts.get(entry.barIndex) ?? 0) + 1);
  const bars = [...counts].filter(([, count]) => count >= 2).map(([bar]) => bar);
  const spans = spansOf(bars);
  if (bars.length === 0 || bars.length > score.bars.length / 5 || spans.length > MOST_PLACES) return [];
  return [say(`${sentenceCase(spansInWords(score, spans, language))}: the pedal changes more than once in the ${word('bar', language)}. Is each harmony gone when the next one sounds?`, spans, 6.5)];
}

/** "Bars 8 and 16: silence in both hands; hands and foot off together." */
function silences({ score, sounds, language }: NotesGround): readonly Candidate[] {
  const bars: number[] = [];
  let end = sounds[0]?.fromTick ?? 0;
  for (const sound of sounds) {
    const bar = score.bars[barAtTick(score, end).barIndex];
    if (bar !== undefined && sound.fromTick - end >= beatTicks(score, bar) && end > 0) bars.push(bar.index);
    end = Math.max(end, sound.toTick);
  }
  if (bars.length === 0 || new Set(bars).size > MOST_SILENCES) return [];
  const spans = [...new Set(bars)].map((bar) => ({ fromBar: bar, toBar: bar }));
  return [say(`${sentenceCase(spansInWords(score, spans, language))}: both hands are silent for a beat or more. Hands and foot off together.`, spans, 5.5)];
}

/** "Bars 9–12: let it ring." */
function ringing({ score, pedalPlan, language }: NotesGround): readonly Candidate[] {
  const rings = pedalPlan.entries.filter((entry) => entry.kind === 'ring');
  if (rings.length === 0 || rings.length > 4) return [];
  const spans = rings.map((entry) => ({ fromBar: entry.barIndex, toBar: barAtTick(score, entry.toTick - 1).barIndex }));
  return [say(`${sentenceCase(spansInWords(score, spans, language))}: let the sound ring and listen to it fade.`, spans, 6)];
}
