/** All that is known of one bar, line by line, for its drawer. */
import {
  barsInWords, chordOverBass, keyInWords, type Analysis, type BeatPlace, type HandPlace, type PedalEntry, type PedalKind, type Section,
} from '../analysis/index.js';
import { sentenceCase, type Language } from '../base/index.js';
import type { Harmony } from '../harmony/index.js';
import { beatPlace, onBeat } from './beatPlace.js';
import { beatFact } from './beatFacts.js';
import { handFact } from './handFacts.js';
import { linkBars, type LinkGround, type Segment } from './barLinks.js';
import { namesBar } from './pieceRemarks.js';
import type { KnownLine } from './pieceTypes.js';
import type { Score } from '../score/index.js';
import { unbroken } from './unbroken.js';

/** What a bar's lines are made from. */
export interface BarGround extends LinkGround {
  readonly score: Score;
  readonly language: Language;
  readonly analysis: Analysis;
  /** The plan that is shown. */
  readonly plan: readonly PedalEntry[];
  readonly beats: readonly BeatPlace[];
  readonly hands: readonly HandPlace[];
}

/** What the foot does, in the words of the trade. */
const PEDAL_WORDS: Readonly<Record<PedalKind, string>> = { down: 'pedal down', change: 'change the pedal', up: 'pedal up', none: 'no pedal', ring: 'let it ring' };

/** Cadences as they are called on the page. */
const CADENCES = { perfect: 'perfect cadence', imperfect: 'imperfect cadence', interrupted: 'interrupted cadence', plagal: 'plagal cadence' } as const;

/** The lines of a bar; a line with nothing to say is left out. */
export function knownLines(ground: BarGround, barIndex: number): readonly KnownLine[] {
  const lines: readonly (readonly [term: string, items: readonly string[]])[] = [
    ['Form', formOf(ground, barIndex)],
    ['Key', keysOf(ground, barIndex)],
    ['Harmony', harmoniesOf(ground, barIndex)],
    ['Beat', beatsOf(ground, barIndex)],
    ['Right hand', handOf(ground, barIndex, 'right')],
    ['Left hand', handOf(ground, barIndex, 'left')],
    ['Both hands', handOf(ground, barIndex, 'both')],
    ['Pedal', pedalOf(ground, barIndex)],
    ['Also said', saidOf(ground, barIndex)],
  ];
  return lines.filter(([, items]) => items.length > 0).map(([term, items]) => ({ term, items: items.map((item) => segmentsOf(item, ground)) }));
}

/** A line with the bars in it linked. */
function segmentsOf(text: string, ground: BarGround): readonly Segment[] {
  return linkBars(unbroken(text), [], ground);
}

/** Written ticks of a bar. */
function ticksOf({ score }: BarGround, barIndex: number): { readonly from: number; readonly to: number } {
  const bar = score.bars[barIndex];
  return bar === undefined ? { from: 0, to: 0 } : { from: bar.startTick, to: bar.startTick + bar.lengthTicks };
}

/** Things that last through some of a bar. */
function during<T extends { readonly fromTick: number; readonly toTick: number }>(items: readonly T[], { from, to }: { readonly from: number; readonly to: number }): readonly T[] {
  return items.filter((item) => item.fromTick < to && item.toTick > from);
}

/** Section and phrase. */
function formOf(ground: BarGround, barIndex: number): readonly string[] {
  const { score, language, analysis } = ground;
  const sections = analysis.sections.filter(({ fromBar, toBar }) => barIndex >= fromBar && barIndex <= toBar);
  const bar = ticksOf(ground, barIndex);
  const phrases = analysis.phrases.filter(({ from, untilTick }) => from.tick < bar.to && untilTick > bar.from);
  const named = sections.map((section) => `${sectionName(section)}, ${barsInWords(score, section, language)}`);
  return [...named, ...phrases.map((phrase) => `phrase, ${barsInWords(score, { fromBar: phrase.from.barIndex, toBar: phrase.to.barIndex }, language)}`)];
}

/** "section A'", "coda". */
function sectionName({ role, name }: Section): string {
  return role === 'section' ? `section ${name}` : name;
}

/** The keys of a bar; one that begins within it with its place. */
function keysOf(ground: BarGround, barIndex: number): readonly string[] {
  const { score, analysis, language } = ground;
  const bar = ticksOf(ground, barIndex);
  return during(analysis.keys, bar).map((key) => {
    const colour = key.colour === null ? '' : `, ${key.colour}`;
    const from = key.fromTick > bar.from ? ` from ${beatPlace(score, { barIndex, offset: (key.fromTick - bar.from) / score.ticksPerQuarter }, language)} on` : '';
    return `${keyInWords(key)}${colour}${from}`;
  });
}

/** The harmonies of a bar with what is special about them, and cadences. */
function harmoniesOf(ground: BarGround, barIndex: number): readonly string[] {
  const { score, analysis, language } = ground;
  const bar = ticksOf(ground, barIndex);
  const chords = during(analysis.harmonies, bar).map((harmony) => {
    const goesOn = harmony.fromTick < bar.from;
    return `${goesOn ? 'goes on' : onBeat(score, harmony, language)}: ${harmonyInWords(harmony)}`;
  });
  const cadences = analysis.cadences.filter((cadence) => cadence.barIndex === barIndex).map((cadence) => `${CADENCES[cadence.kind]} ${onBeat(score, cadence, language)}`);
  return [...chords, ...cadences];
}

/** "iv6, D minor over F; suspension 4–3; the third comes late". */
export function harmonyInWords(harmony: Harmony): string {
  const chord = chordOverBass(harmony);
  if (chord === '') return 'no one chord';
  const { missing, late } = harmony.members;
  const foreign = [...new Set(harmony.nonChordNotes.filter(({ kind }) => kind === 'suspension' || kind === 'appoggiatura' || kind === 'pedal').map(({ kind, figure }) => `${kind === 'pedal' ? 'pedal note' : kind}${figure === null ? '' : ` ${figure.replace('-', '–')}`}`))];
  const open = missing.filter((member) => member === 'root' || member === 'third').map((member) => `the ${member} is missing`);
  const after = late.filter((member) => member === 'root' || member === 'third').map((member) => `the ${member} comes late`);
  return [`${degreeInWords(harmony.degree)}, ${chord}`, ...foreign, ...open, ...after].join('; ');
}

/** A degree for running text: the cadential six-four as V 6-4, half-diminished and diminished signs as they are. */
export function degreeInWords(degree: string): string {
  return degree.replace('(64)', ' 6–4').replace(/^b/, '♭').replace(/^#/, '♯').replace('o', '°');
}

/** Where the beat hides. */
function beatsOf({ beats }: BarGround, barIndex: number): readonly string[] {
  const own = beats.filter(({ fromBar, toBar }) => barIndex >= fromBar && barIndex <= toBar);
  return [...new Set(own.map((place) => `${place.hand === 'both' ? '' : `${place.hand} hand: `}${beatFact(place)}`))];
}

/** What one hand has to do. */
function handOf({ hands }: BarGround, barIndex: number, hand: HandPlace['hand']): readonly string[] {
  return [...new Set(hands.filter((place) => place.hand === hand && barIndex >= place.fromBar && barIndex <= place.toBar).map(handFact))];
}

/** The plan's entries with their reasons. */
function pedalOf(ground: BarGround, barIndex: number): readonly string[] {
  const { score, plan, language } = ground;
  const bar = ticksOf(ground, barIndex);
  return during(plan, bar).map((entry) => {
    const when = entry.fromTick < bar.from ? 'goes on' : onBeat(score, entry, language);
    const clears = entry.clearS === null ? '' : `; give the dampers about ${clearInWords(entry.clearS)}`;
    return `${when}: ${PEDAL_WORDS[entry.kind]} (${entry.reason})${entry.fromTick < bar.from ? '' : clears}`;
  });
}

/** "a quarter of a second", "a tenth of a second". */
function clearInWords(seconds: number): string {
  if (seconds <= 0.12) return 'a tenth of a second';
  return seconds < 0.2 ? 'a sixth of a second' : 'a quarter of a second';
}

/** Sentences that speak of this bar and not of half the piece. */
function saidOf({ score, analysis }: BarGround, barIndex: number): readonly string[] {
  const { beforeTeaching, listenFor } = analysis.notes;
  const most = Math.max(8, score.bars.length / 4);
  const close = [...beforeTeaching, ...listenFor].filter(({ places }) => namesBar(places, barIndex) && places.reduce((sum, { fromBar, toBar }) => sum + toBar - fromBar + 1, 0) <= most);
  return close.map(({ text }) => sentenceCase(text));
}
