/**
 * Scores of which little can be said: each gets what can be said, and a plain word on what cannot. Witness: what a teacher sees on such
 * a page; the reasons stand beside the tests. All music is invented.
 */
import { describe, expect, it } from 'vitest';
import { analyseScore, analysisInWords, analysisReport, type Analysis } from '../../src/analysis/index.js';
import { analyseHarmony } from '../../src/harmony/index.js';
import { readScore, type Score } from '../../src/score/index.js';
import { score } from '../align/build.js';
import { bars, grace, note, partwise, rest, utf8 } from '../score/build.js';
import { readMidiTracks, time, track, type Played } from '../score/midiBuild.js';

const read = (measures: string): Score => readScore(utf8(partwise(measures)), { fileName: 'awkward.musicxml' });
const before = (analysis: Analysis): readonly string[] => analysis.notes.beforeTeaching.map(({ text }) => text);

const NO_PITCH = '<note><unpitched><display-step>E</display-step><display-octave>4</display-octave></unpitched><duration>8</duration></note>';
const TUNE = ['C5 D5 E5 C5', 'E5 F5 G5/2', 'G5 F5 E5 D5', 'C5/4', 'C5 E5 G5/2', 'A5 G5 F5 E5', 'F5 E5 D5 B4', 'C5/4'];
const ROWS = ['C4 F#4 B4 F4', 'E5 Bb4 A4 Eb4', 'G#4 D5 C#4 G4', 'F#5 C4 F4 B4'];

/** Two tracks of crotchets and minims, eight bars of C major. */
const midi = (): Score => {
  const right = [72, 76, 79, 76, 77, 74, 71, 74, 72, 76, 79, 76, 74, 71, 72, 72].map((key, i): Played => [i * 480, 480, key]);
  const left = [48, 55, 43, 55, 48, 55, 43, 48].map((key, i): Played => [i * 960, 960, key]);
  return readMidiTracks([track([], [[0, time(4, 4)]]), track(right), track(left)]);
};

const AWKWARD: readonly (readonly [name: string, score: Score])[] = [
  ['rests alone', score(['r/4', 'r/4'])],
  ['one note', score(['C5/4'])],
  ['one chord', score([{ right: 'E5+G5/4', left: 'C3/4' }])],
  ['a melody alone', score(TUNE)],
  ['a left hand alone', score(TUNE.map((text) => ({ right: 'r/4', left: text.replaceAll(/([A-G])[45]/g, '$13') })))],
  ['atonal', score(ROWS.map((text) => ({ right: text, left: text.split(' ').reverse().join(' ').replaceAll(/(\d)/g, '3') })))],
  ['one endless bar', score([{ right: 'C4 E4 G4 A4 '.repeat(16).trim(), left: 'C3/64' }], '64/4')],
  ['notes without pitch', read(bars([NO_PITCH.repeat(4), NO_PITCH.repeat(4)]))],
  ['grace notes alone', read(bars([grace('C5') + rest(32)]))],
  ['a bar longer than its time', read(bars([['C4', 'E4', 'G4', 'A4', 'B4', 'A4', 'G4', 'F4', 'E4', 'D4', 'C4', 'D4', 'E4'].map((name) => note(name, 8)).join('')]))],
  ['a MIDI file', midi()],
];

describe.each(AWKWARD)('%s', (_name, written) => {
  const analysis = analyseScore(written);

  it('is analysed to the end: figures are figures, places lie in the score', () => {
    expect(JSON.stringify(analysisReport(written, analysis))).not.toMatch(/NaN|Infinity/);
    for (const { barIndex, confidence } of analysis.harmonies) {
      expect(written.bars[barIndex]).toBeDefined();
      expect(confidence >= 0 && confidence <= 1).toBe(true);
    }
    for (const { places } of analysis.pitfalls) for (const { toBar } of places) expect(toBar).toBeLessThan(written.bars.length);
  });

  it('gets sentences, each whole', () => {
    const said = [...analysis.notes.beforeTeaching, ...analysis.notes.willTrip, ...analysis.notes.listenFor];
    expect(said.length).toBeGreaterThan(0);
    for (const { text } of said) expect(text).toMatch(/^["A-Z0-9].*\.$/);
    expect(analysisInWords(written, analysis)).toContain('Before teaching it');
  });
});

/** The analysis of one of the scores above. */
const of = (name: string): Analysis => analyseScore(AWKWARD.find(([one]) => one === name)![1]);

describe('what cannot be said', () => {
  it('of rests alone: there are no notes', () => expect(before(of('rests alone'))).toEqual(['There are no notes in this score.']));

  it('of percussion: that its notes have no pitch', () => expect(before(of('notes without pitch'))).toEqual([expect.stringMatching(/^There are only notes without pitch/)]));

  it('of grace notes alone: that nothing carries them', () => expect(before(of('grace notes alone'))).toEqual([expect.stringMatching(/^There are only grace notes/)]));

  it.each(['one note', 'one chord'])('of %s: no key, since C, E and G belong to C, F and G major alike', (name) => {
    expect(before(of(name))).toContain('There are too few different notes to tell a key.');
    expect(before(of(name)).join(' ')).not.toMatch(/major|minor|cadence|one line/);
  });

  it.each(['a melody alone', 'a left hand alone'])('of %s: its key, but no chords and cadences', (name) => {
    expect(before(of(name)).join(' ')).toMatch(/The key is C major/);
    expect(before(of(name))).toContain('This is one line alone: its chords are only hinted at, and nothing is said of them.');
    expect(before(of(name)).join(' ')).not.toMatch(/cadence|dominant|Borrowed|suspension/);
  });

  it('of twelve-note music: that it keeps to no key', () => {
    expect(before(of('atonal'))).toContain('The notes keep to no key, so nothing is said of keys and cadences.');
    expect(before(of('atonal')).join(' ')).not.toMatch(/phrase|major|minor/);
  });

  it.each(['one endless bar', 'a bar longer than its time'])('of %s: no phrases, no counting', (name) => {
    expect(before(of(name)).join(' ')).toMatch(/There are no bar lines to count by/);
    expect(of(name).pitfalls.filter((pitfall) => pitfall.counting !== null)).toEqual([]);
  });

  it('of a MIDI file: that it guesses, and nothing of marks that it cannot hold', () => {
    const said = before(of('a MIDI file'));
    expect(said.join(' ')).toMatch(/This comes from a MIDI file: bar lines, hands and the spelling of notes are guessed/);
    expect(said.join(' ')).not.toMatch(/No pedal is (marked|drawn)/);
  });
});

describe('no harmony where none is', () => {
  it('one note carries no cadence and no member but its own', () => {
    const { harmonies, cadences } = analyseHarmony(score(['C5/4']));
    expect(cadences).toEqual([]);
    expect(harmonies.every(({ members }) => members.sounding.length <= 1)).toBe(true);
  });
});
