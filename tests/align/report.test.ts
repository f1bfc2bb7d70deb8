/** The report "barwise-align/1", field by field, against a case that is worked by hand. */
import { describe, expect, it } from 'vitest';
import { alignmentReport } from '../../src/align/index.js';
import { keys, match, score, type Matched } from './build.js';
import { BAR_S, plays, tune } from './tune.js';

const report = ({ score: read, recording, alignment }: Matched): unknown => JSON.parse(JSON.stringify(alignmentReport(read, recording, alignment)));

// bars "0" (one beat), "1" and "12a": an upbeat, a trill on D5, a wrong note (Bb4 for B4), a missed F4, a stray C#6
const music = score([
  { right: 'G4', number: '0' },
  { right: 'C5 E5 D5tr/2', number: '1' },
  { right: 'A4 F4 B4 C5', left: 'F3/4', number: '12a' },
]);
const matched = match(
  music,
  keys(1.00004, 1, 'G4'),
  keys(1.5, 0.5, 'C5 E5'),
  keys(2.5, 0.25, 'D5 E5 D5 E5'),
  keys(3.5, 1, 'A4+F3 Bb4'),
  keys(5, 1, 'C5'),
  keys(5.02, 1, 'C#6'),
);

describe('the report', () => {
  it('says everything, seconds to four decimals, bars as printed', () => {
    expect(report(matched)).toEqual({
      format: 'barwise-align/1',
      pairs: [
        { note: 'r0-1', pass: 1, attempt: 1, onset: 1, pitch: 67 },
        { note: 'r1-1', pass: 1, attempt: 1, onset: 1.5, pitch: 72 },
        { note: 'r1-2', pass: 1, attempt: 1, onset: 2, pitch: 76 },
        { note: 'r1-3', pass: 1, attempt: 1, onset: 2.5, pitch: 74 },
        { note: 'l12a-1', pass: 1, attempt: 1, onset: 3.5, pitch: 53 },
        { note: 'r12a-1', pass: 1, attempt: 1, onset: 3.5, pitch: 69 },
        { note: 'r12a-4', pass: 1, attempt: 1, onset: 5, pitch: 72 },
      ],
      missed: [{ note: 'r12a-2', pass: 1, attempt: 1 }, { note: 'r12a-3', pass: 1, attempt: 1 }],
      added: [{ onset: 4.5, pitch: 70, near: 'r12a-3' }, { onset: 5.02, pitch: 85, near: 'r12a-4' }],
      ornaments: [{ note: 'r1-3', onset: 2.75, pitch: 76 }, { note: 'r1-3', onset: 3, pitch: 74 }, { note: 'r1-3', onset: 3.25, pitch: 76 }],
      route: [{ fromBar: '0', toBar: '12a', pass: 1, attempt: 1, hands: 'both', start: 1, end: 5 }],
      hands: 'both',
      transposition: 0,
      // 7 pairs and 3 ornaments of 12 presses
      matched: 0.8333,
    });
  });

  it('rounds onsets to four decimals', () => {
    const [line] = keys(0, 1 / 3, 'C4 D4 E4 F4').map((key) => ({ ...key, onsetS: key.onsetS + 0.12345 }));
    const thirds = match(score(['C4 D4 E4 F4']), keys(0.12345, 1 / 3, 'C4 D4 E4 F4'));
    expect(line?.onsetS).toBe(0.12345);
    // 0.12345, 0.456783…, 0.790116…, 1.12345
    expect(report(thirds)).toMatchObject({ pairs: [{ onset: 0.1235 }, { onset: 0.4568 }, { onset: 0.7901 }, { onset: 1.1235 }], route: [{ start: 0.1235, end: 1.1235 }] });
  });

  it('gives each stretch of the route its hands and attempt', () => {
    const twice = match(tune(), plays(1, 4, 0, { hand: 'right' }), plays(3, 8, 4 * BAR_S + 1));
    expect(report(twice)).toMatchObject({
      hands: 'mixed',
      route: [
        { fromBar: '1', toBar: '4', pass: 1, attempt: 1, hands: 'right', start: 0, end: 7.5 },
        // bars 3-8 from 9 s: 24 crotchets, the last one 23 half seconds after the first
        { fromBar: '3', toBar: '8', pass: 1, attempt: 2, hands: 'both', start: 9, end: 20.5 },
      ],
    });
  });

  it('leaves `near` out for presses outside the music, and tells played from written pitch', () => {
    const noodled = match(tune(), keys(0, 0.25, 'C#5 D#5 F#5 C#5'), plays(1, 8, 4).map((key) => ({ ...key, pitch: key.pitch + 2 })));
    const said = report(noodled);
    expect(said).toMatchObject({ transposition: 2, added: [{ onset: 0, pitch: 73 }, { onset: 0.25, pitch: 75 }, { onset: 0.5, pitch: 78 }, { onset: 0.75, pitch: 73 }] });
    expect(JSON.stringify(said)).not.toContain('"near"');
    // the first written notes are C3 and C4, MIDI 48 and 60; played two semitones higher
    expect(said).toHaveProperty('pairs.0', { note: 'l1-1', pass: 1, attempt: 1, onset: 4, pitch: 50 });
    expect(said).toHaveProperty('pairs.1', { note: 'r1-1', pass: 1, attempt: 1, onset: 4, pitch: 62 });
  });
});
