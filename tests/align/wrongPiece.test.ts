/** Whether a recording is of the score at all. The two demo pieces crossed stand in demo.test.ts. */
import { describe, expect, it } from 'vitest';
import { alignRecording, type Alignment } from '../../src/align/index.js';
import { refuseWrongPiece } from '../../src/align/wrongPiece.js';
import { InputError, seededRandom } from '../../src/base/index.js';
import { asha, mei, nilo } from '../../src/demo/players.js';
import { recording, type Key } from './build.js';
import { demoPiece, judge, perform, slip, SLIPS, type Part } from './takes.js';
import { plays, tune } from './tune.js';

const boat = demoPiece('rowing-home');
const march = demoPiece('quayside-march');

function expectRefused(matching: () => unknown): void {
  expect(matching).toThrow(InputError);
  expect(matching).toThrow(expect.objectContaining({ code: 'wrong-piece' }));
}

describe('the rule', () => {
  // one stretch with so many pairs, missed and added notes; the worth is nothing
  const stretch = (pairs: number, missed: number, added: number): Alignment => ({
    pairs: Array.from({ length: pairs }, (_, i) => ({ occurrence: i, note: i, stretch: 0, attempt: 1, octaveSlip: 0 })),
    missed: Array.from({ length: missed }, (_, i) => ({ occurrence: i, stretch: 0, attempt: 1 })),
    added: Array.from({ length: added }, (_, i) => ({ note: i, stretch: 0, near: null, instead: false })),
    ornaments: [], route: [{ index: 0, fromVisit: 0, toVisit: 0, startS: 0, endS: 1, attempt: 1, hands: 'both' }], hands: 'both', transposition: 0, matched: 0,
  });

  it.each([
    ['20 in 100 presses in a clear stretch, exactly', stretch(20, 0, 0), { worth: 0, presses: 100, passes: true }],
    ['19 in 100', stretch(19, 0, 0), { worth: 0, presses: 100, passes: false }],
    ['8 of 20 missed: exactly two fifths', stretch(20, 8, 0), { worth: 0, presses: 100, passes: true }],
    ['9 of 20 missed', stretch(20, 9, 0), { worth: 0, presses: 100, passes: false }],
    ['6 strange ones to 20: exactly three tenths', stretch(20, 0, 6), { worth: 0, presses: 100, passes: true }],
    ['7 strange ones to 20', stretch(20, 0, 7), { worth: 0, presses: 100, passes: false }],
    ['4 pairs of 12 presses', stretch(4, 0, 0), { worth: 0, presses: 12, passes: true }],
    ['3 pairs of 12 presses: no stretch yet', stretch(3, 0, 0), { worth: 0, presses: 12, passes: false }],
    ['half a hit for each press, exactly', stretch(0, 0, 0), { worth: 50, presses: 100, passes: true }],
    ['less than half a hit', stretch(0, 0, 0), { worth: 49.9, presses: 100, passes: false }],
    ['11 presses, nothing right', stretch(0, 0, 0), { worth: 0, presses: 11, passes: true }],
    ['12 presses, nothing right', stretch(0, 0, 0), { worth: 0, presses: 12, passes: false }],
  ] as const)('%s', (_name, alignment, { worth, presses, passes }) => {
    const judged = (): void => refuseWrongPiece(alignment, worth, presses);
    if (passes) expect(judged).not.toThrow();
    else expectRefused(judged);
  });
});

describe('another piece', () => {
  it('is refused where keys are struck by chance', () => {
    const random = seededRandom(5);
    const chance = Array.from({ length: 120 }, (_, i): Key => ({ onsetS: i * 0.3, pitch: 36 + Math.floor(random() * 48) }));
    expectRefused(() => alignRecording(boat.score, recording(chance)));
    expectRefused(() => alignRecording(tune(), recording(chance)));
  });

  it.each([0, 1, 2, 3])('is refused at any length: some bars of the tune against the march (%d)', (i) => {
    expectRefused(() => alignRecording(march.score, recording(plays(1 + i, 5 + i, 0))));
  });

  it('is refused transposed as well', () => {
    const notes = perform(march, [{ from: '0', to: '25' }], { player: mei, seed: 3 });
    for (const semitones of [-5, 2, 12]) {
      expectRefused(() => alignRecording(boat.score, recording(notes.map((note) => ({ ...note, pitch: note.pitch + semitones })))));
    }
  });
});

describe('this piece, however little of it', () => {
  const drills: [string, typeof boat, Part, number][] = [
    ['two bars of the barcarolle, right hand, four times', boat, { from: '12', to: '13', hands: 'right' }, 4],
    ['two bars of the barcarolle, left hand, four times', boat, { from: '13', to: '14', hands: 'left' }, 4],
    ['two bars of the march, right hand, four times', march, { from: '14', to: '15', hands: 'right' }, 4],
    ['one bar of the march, both hands, five times', march, { from: '15', to: '15' }, 5],
    ['one bar of the barcarolle, both hands, five times', boat, { from: '13', to: '13' }, 5],
  ];

  it.each(drills)('%s', (_name, piece, part, times) => {
    for (const player of [asha, mei, nilo]) {
      const notes = perform(piece, Array.from({ length: times }, () => part), { player, seed: 11 });
      const { f1, returns } = judge(piece.score, notes);
      expect(f1).toBeGreaterThanOrEqual(0.99);
      expect(returns).toBeGreaterThanOrEqual(0.99);
    }
  });

  it('is known with twice as many slips as anybody makes', () => {
    const many = { wrong: 2 * SLIPS.wrong, missed: 2 * SLIPS.missed, added: 2 * SLIPS.added };
    for (const seed of [1, 2, 3]) {
      expect(judge(boat.score, slip(perform(boat, [{ from: '0', to: '30' }], { player: nilo, seed }), many, seed)).f1).toBeGreaterThan(0.95);
    }
  });
});
