/**
 * Harmonies by hand for tests of what comes after harmony: `chords(score, '1 Am', '3 Dm', '4+1.5 E7/G#')` is a harmony from each
 * place to the next, bars by printed number, offsets in crotchets. `cadence` and `end` make the rest of the record.
 */
import type { CadenceKind, Harmony, HarmonyAnalysis, Quality } from '../../src/harmony/index.js';
import type { Score } from '../../src/score/index.js';

const SUFFIX: Readonly<Record<string, Quality>> = { '': 'major', m: 'minor', '7': 'dominantSeventh', '5': 'openFifth', dim: 'diminished', '64': 'cadentialSixFour' };
const PITCH: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

function pitchClass(name: string): number {
  const sign = name.slice(1) === '#' ? 1 : name.slice(1) === 'b' ? -1 : 0;
  return (PITCH[name.charAt(0)]! + sign + 12) % 12;
}

/** A written tick from "4+1.5". */
export function tickOf(score: Score, place: string): number {
  const [number, offset = '0'] = place.split('+');
  const bar = score.bars.find((each) => each.number === number);
  if (bar === undefined) throw new RangeError(`no bar ${place}`);
  return bar.startTick + Number(offset) * score.ticksPerQuarter;
}

/** Harmonies from places and chord names. */
export function chords(score: Score, ...texts: readonly string[]): readonly Harmony[] {
  const last = score.bars[score.bars.length - 1]!;
  const parts = texts.map((text) => {
    const [place = '', name = ''] = text.split(' ');
    const [, rootName = '', suffix = '', bassName = rootName] = /^([A-G][#b]?)(m|7|5|dim|64)?(?:\/([A-G][#b]?))?$/.exec(name) ?? [];
    const quality = SUFFIX[suffix]!;
    return { from: tickOf(score, place), rootName, bassName, quality, name };
  });
  return parts.map(({ from, rootName, bassName, quality, name }, i): Harmony => {
    const bar = score.bars.findLast((each) => each.startTick <= from)!;
    return {
      fromTick: from, toTick: parts[i + 1]?.from ?? last.startTick + last.lengthTicks, barIndex: bar.index, offset: (from - bar.startTick) / score.ticksPerQuarter,
      root: pitchClass(rootName), rootName, quality, bass: pitchClass(bassName), bassName, inversion: rootName === bassName ? 0 : 1,
      degree: '', function: 'none', borrowed: false, members: { sounding: ['root', 'third', 'fifth'], missing: [], late: [] }, nonChordNotes: [], confidence: 1, name,
    };
  });
}

/** What else a record holds. */
interface More {
  /** "8 perfect": the place of the last chord. */
  readonly cadences?: readonly string[];
  /** Places of last harmonies. */
  readonly ends?: readonly string[];
}

/** A whole record of harmony by hand, in C major. */
export function analysed(score: Score, texts: readonly string[], { cadences = [], ends = [] }: More = {}): HarmonyAnalysis {
  const place = (text: string): { tick: number; barIndex: number; offset: number } => {
    const tick = tickOf(score, text);
    const bar = score.bars.findLast((each) => each.startTick <= tick)!;
    return { tick, barIndex: bar.index, offset: (tick - bar.startTick) / score.ticksPerQuarter };
  };
  const kinds = cadences.map((text) => {
    const [at = '', kind = ''] = text.split(' ');
    return { ...place(at), kind: kind as CadenceKind };
  });
  return {
    globalKey: { tonic: 0, mode: 'major', spelling: 'C', confidence: 1, colour: null, picardyClose: false },
    keys: [], harmonies: chords(score, ...texts), cadences: kinds, phraseEnds: ends.map((end) => ({ ...place(end), lastNoteTick: place(end).tick })),
  };
}
