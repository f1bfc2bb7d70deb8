import { describe, expect, it } from 'vitest';
import { analyseScore, analysisInWords, type Analysis, type Remark } from '../../src/analysis/index.js';
import { intervalInWords } from '../../src/analysis/teachingNotesForm.js';
import { barsInWords, spansInWords, spansOf } from '../../src/analysis/teachingNotesBars.js';
import { demoFiles } from '../../src/demo/index.js';
import { readScore, type Score } from '../../src/score/index.js';
import { score } from '../align/build.js';

const files = demoFiles();

function demo(slug: string): { readonly written: Score; readonly analysis: Analysis } {
  const file = files.find(({ path }) => path === `${slug}/score.musicxml`)!;
  const written = readScore(file.bytes, { fileName: file.path });
  return { written, analysis: analyseScore(written) };
}

const texts = (remarks: readonly Remark[]): string[] => remarks.map(({ text }) => text);

describe('bars in words', () => {
  const written = score(['C4/4', 'C4/4', 'C4/4', 'C4/4', 'C4/4', 'C4/4', 'C4/4']);

  it('names one, a stretch, and several', () => {
    expect(barsInWords(written, { fromBar: 2, toBar: 2 }, 'british')).toBe('bar 3');
    expect(barsInWords(written, { fromBar: 0, toBar: 3 }, 'american')).toBe('measures 1–4');
    expect(spansInWords(written, spansOf([6, 0, 1, 3, 6]), 'british')).toBe('bars 1–2, 4 and 7');
  });

  it('names the half of a split bar by the number before, and the upbeat by its word', () => {
    const split = score([{ right: 'C4/4', number: '0' }, { right: 'C4/4', number: '1' }, { right: 'C4/4', number: 'X1' }]);
    expect(barsInWords(split, { fromBar: 2, toBar: 2 }, 'british')).toBe('bar 1');
    expect(barsInWords(split, { fromBar: 0, toBar: 0 }, 'american')).toBe('the pickup');
  });

  it('names the upbeat apart, and leaves it out where a stretch goes on from it', () => {
    const upbeat = score(['0', '1', '2', '3', '4'].map((number) => ({ right: 'C4/4', number })));
    expect(spansInWords(upbeat, spansOf([0, 2, 3]), 'british')).toBe('the upbeat and bars 2–3');
    expect(spansInWords(upbeat, spansOf([0, 1, 4]), 'british')).toBe('bars 1 and 4');
  });

  it('stops counting after six stretches', () => {
    const long = score(Array.from({ length: 14 }, () => 'C4/4'));
    expect(spansInWords(long, spansOf([0, 2, 4, 6, 8, 10, 12]), 'british')).toBe('bars 1, 3, 5, 7, 9, 11 and later');
  });
});

it('names intervals', () => {
  expect([5, -3, 12, -14].map(intervalInWords)).toEqual(['a fourth higher', 'a minor third lower', 'an octave higher', 'an octave and a tone lower']);
});

describe('the barcarolle', () => {
  const { written, analysis } = demo('rowing-home');
  const before = texts(analysis.notes.beforeTeaching);

  // every sentence read off the page: 30 bars of 6/8; 30 bars and a quaver at 2 beats a bar and 52 a minute are 69.8 s
  it('has its frame, form and harmony told', () => {
    expect(before).toContain('30 bars of 6/8 and an upbeat of a quaver; Andantino, dotted crotchet = 52, about 70 seconds.');
    expect(before.some((text) => text.startsWith('The key is A minor, with G sharp as its leading note'))).toBe(true);
    expect(before).toContain("Form: A (bars 1–8), B (9–16), A' (17–23) and a coda (24–30).");
    expect(before).toContain('A comes back in bar 17: the right hand has notes added in bars 18–20 and it is one bar shorter.');
    expect(before).toContain('The loudest mark is f, in bar 15; the softest pp, in bar 28.');
  });

  it('says what turns aside, and where the foot moves twice', () => {
    const listen = texts(analysis.notes.listenFor);
    expect(listen).toContain('Bar 24: E seventh leads to F major instead of home (interrupted cadence).');
    expect(listen.some((text) => text.startsWith('Bars 7, 23 and 26: the pedal changes more than once'))).toBe(true);
  });

  it('ties every sentence to bars of the piece', () => {
    const all = [...analysis.notes.beforeTeaching, ...analysis.notes.listenFor];
    expect(all.every(({ places }) => places.length > 0 && places.every(({ fromBar, toBar }) => fromBar >= 0 && fromBar <= toBar && toBar < written.bars.length))).toBe(true);
    expect(analysis.notes.beforeTeaching.length).toBeLessThanOrEqual(10);
  });

  it('speaks American on request', () => {
    const words = analysisInWords(written, analysis, 'american');
    expect(words).toContain('30 measures of 6/8 and a pickup of an eighth note; Andantino, dotted quarter note = 52');
    expect(words).toContain('deceptive cadence');
    expect(words).not.toMatch(/\bbars?\b|crotchet|quaver|interrupted/);
  });

  it('breaks no line beyond 96 characters', () => {
    expect(Math.max(...analysisInWords(written, analysis).split('\n').map((line) => line.length))).toBeLessThanOrEqual(96);
  });
});

it('the march: two touches, the dominant of the dominant, the repeat', () => {
  const { notes } = demo('quayside-march').analysis;
  const before = texts(notes.beforeTeaching);
  expect(before).toContain("Form: A (bars 1–9), B (10–17) and A' (18–25); played A A B A'.");
  expect(before).toContain('Secondary dominants: A seventh, the dominant of D (bar 15).');
  // said once: as what will trip a hand, not before. Bars 16 (tenuto) and 25 (staccato in both hands) are left out
  expect(before.some((text) => text.startsWith('Two touches'))).toBe(false);
  expect(texts(notes.willTrip)[0]).toMatch(/^Bars 1–15 and 17–24: The left hand is short while the right is slurred/);
});

it('the evening piece: flattened supertonic sixth and ringing bars', () => {
  const { notes } = demo('evening-over-skerrowby').analysis;
  expect(texts(notes.beforeTeaching).join(' ')).toMatch(/Neapolitan sixth\), G flat major over B flat, comes in bar 17/);
  expect(texts(notes.listenFor).join(' ')).toMatch(/let the sound ring/);
});

it('the evening piece: what is borrowed, how it closes, what words ask of the foot', () => {
  const before = texts(demo('evening-over-skerrowby').analysis.notes.beforeTeaching);
  // planned: iv in bar 27; V7 vi in 26; "con pedale" over bar 1, two pedals drawn
  expect(before).toContain('Borrowed from the minor: D flat minor (bar 27).');
  expect(before).toContain('Perfect cadences in bars 8, 19 and 29, imperfect cadences in bars 4 and 15 and an interrupted cadence in bar 26.');
  expect(before).toContain('"con pedale" in bar 1 asks for the pedal, changed with the harmony; it is drawn in bars 9–12 and 30–31.');
  expect(before).toContain("Form: A (bars 1–8), B (9–12), C (13–20), A' (21–29) and B' (30–32).");
});

it('the quick piece: no cadence that only an inverted dominant makes, a staccato that asks for no pedal', () => {
  const before = texts(demo('gull-chase').analysis.notes.beforeTeaching);
  expect(before).toContain('Perfect cadences in bars 16 and 33 and an imperfect cadence in bar 8.');
  expect(before).toContain('An augmented sixth comes in bars 7 and 31, whose outer notes want to part to an octave.');
  expect(before).toContain('No pedal is marked, and the staccato of the accompaniment asks for none.');
});

it('a bass that walks with its harmonies is named; one that only belongs to the figure is not', () => {
  // C, B, A, G, F, each struck with a chord of its own: I V6 vi V(of C) IV; a step is a semitone or a tone
  const chords = ['E4+G4+C5/4', 'D4+G4+D5/4', 'E4+A4+C5/4', 'D4+G4+B4/4', 'F4+A4+C5/4', 'D4+F4+B4/4', 'E4+G4+C5/4'];
  const walk = ['C4/4', 'B3/4', 'A3/4', 'G3/4', 'F3/4', 'G3/4', 'C3/4'];
  const words = (left: readonly string[]): string => texts(analyseScore(score(chords.map((right, i) => ({ right, left: left[i]! })))).notes.listenFor).join(' ');
  expect(words(walk)).toContain('Bars 1–5: the bass goes down by step from C to F.');
  // the same letters an octave apart each time make no line
  expect(words(['C4/4', 'B2/4', 'A3/4', 'G2/4', 'F3/4', 'G3/4', 'C3/4'])).not.toContain('by step');
});

it('the quick piece closes on a major chord', () => {
  expect(texts(demo('gull-chase').analysis.notes.beforeTeaching).join(' ')).toMatch(/the last chord is D major, a Tierce de Picardie/);
});

describe('little to say', () => {
  it('of a score of rests: that there are no notes', () => {
    const { notes, pedalPlan, sections } = analyseScore(score(['r/4', 'r/4']));
    expect(texts(notes.beforeTeaching)).toEqual(['There are no notes in this score.']);
    expect(notes.listenFor).toEqual([]);
    expect([pedalPlan.entries, sections]).toEqual([[], []]);
  });

  it('of a melody alone: its frame, nothing of a left hand', () => {
    const { notes } = analyseScore(score(['C5 D5 E5 C5', 'E5 F5 G5/2', 'G5 F5 E5 D5', 'C5/4']));
    const words = texts(notes.beforeTeaching).join(' ');
    expect(words).toMatch(/^4 bars of 4\/4/);
    expect(words).not.toMatch(/left hand|only the pedal/);
  });

  it('of twelve-note music: no sentence about a mode that it has not', () => {
    const rows = ['C4 F#4 B4 F4', 'E5 Bb4 A4 Eb4', 'G#4 D5 C#4 G4', 'F#5 C4 F4 B4'];
    const { notes } = analyseScore(score(rows.map((text) => ({ right: text, left: text.split(' ').reverse().join(' ').replaceAll(/(\d)/g, '3') }))));
    const words = texts([...notes.beforeTeaching, ...notes.listenFor]);
    expect(words).toContain('The notes keep to no key, so nothing is said of keys and cadences.');
    expect(words.filter((text) => /major|minor|perfect|dominant/.test(text))).toEqual([]);
    expect(words.every((text) => /^[A-Z0-9].*\.$/.test(text))).toBe(true);
  });

  it('of one endless bar', () => {
    const { notes, sections } = analyseScore(score(['C4 E4 G4 E4 '.repeat(16).trim()], '64/4'));
    expect(sections).toHaveLength(1);
    expect(texts(notes.beforeTeaching)[0]).toBe('1 bar of 64/4.');
  });
});
