/** The lane that stands under every system: early and late, or a curve of tempo, of loud and soft, or of tune over accompaniment. */
import type { Language } from '../base/index.js';
import type { CurveLane, CurvePoint } from '../engrave/index.js';
import type { BarFacts, BeatLevel } from '../measure/index.js';
import type { Reading } from '../pipeline/index.js';
import type { BarNames, BeatUnit, Score } from '../score/index.js';
import { tempoCurve } from './tempoLane.js';

/** The lanes by their names in addresses. */
export type LaneName = 'time' | 'tempo' | 'level' | 'balance';

/** What each lane is called on the page. */
const NAMES: Readonly<Record<LaneName, string>> = { time: 'early and late', tempo: 'tempo', level: 'loud and soft', balance: 'tune over accompaniment' };

/** In the order of the links. */
const LANES: readonly LaneName[] = ['time', 'tempo', 'level', 'balance'];

/** Room over the loudest and under the softest beat, velocity units. */
const LEVEL_ROOM = 4;

/** Scale of the balance, velocity units: the tune 10 to 20 over its accompaniment is common practice. */
const BALANCE_LOW = -20;
const BALANCE_HIGH = 40;
const BALANCE_USUAL = 15;

/** What lanes are made from. */
export interface LaneParts {
  readonly reading: Reading;
  readonly shown: ReadonlyMap<number, BarFacts>;
  readonly names: BarNames;
  readonly unit: BeatUnit;
  /** Marked tempo in `unit`s a minute, or null. */
  readonly marked: number | null;
  readonly language: Language;
}

/** A link that chooses the lane. */
export interface LaneLink {
  readonly name: LaneName;
  readonly text: string;
}

/** The lane that an address asks for; early and late where it asks for none. */
export function laneAsked(asked: unknown): LaneName {
  return LANES.find((lane) => lane === asked) ?? 'time';
}

/** The lanes that hold something for this recording. */
export function lanesOf({ measures }: Pick<Reading, 'measures'>): readonly LaneLink[] {
  return LANES.filter((name) => measures.levels.measured || (name !== 'level' && name !== 'balance')).map((name) => ({ name, text: NAMES[name] }));
}

/** The curve of a lane; null for early and late, which is drawn note by note. */
export function curveOf(parts: LaneParts, name: LaneName): CurveLane | null {
  if (name === 'tempo') return tempoCurve({ ...parts, score: parts.reading.score, beats: parts.reading.measures.pulse.beats });
  if (name === 'level') return levelCurve(parts);
  return name === 'balance' ? balanceCurve(parts) : null;
}

/** Level of each hand by the beat, with the written marks over it. */
function levelCurve(parts: LaneParts): CurveLane | null {
  const { levels } = parts.reading.measures;
  if (!levels.measured) return null;
  const { beats, scale } = levels.value;
  const low = Math.max(0, scale.soft - LEVEL_ROOM);
  const high = Math.max(scale.loud + LEVEL_ROOM, low + 1);
  const words = parts.reading.score.directions.filter(({ kind }) => kind === 'dynamics').map(({ onsetTick, text }) => ({ tick: onsetTick, text }));
  return {
    title: 'Loud and soft, the hands apart',
    curves: [
      { name: 'right hand', points: beatPoints(parts, beats, (beat) => beat.right), second: false },
      { name: 'left hand', points: beatPoints(parts, beats, (beat) => beat.left), second: true },
    ],
    low, high,
    rules: [{ value: scale.loud, text: 'loud' }, { value: scale.soft, text: 'soft' }],
    words,
  };
}

/** How far the tune stands over its accompaniment, by the beat. */
function balanceCurve(parts: LaneParts): CurveLane | null {
  const { levels } = parts.reading.measures;
  if (!levels.measured) return null;
  const points = beatPoints(parts, levels.value.beats, (beat) => beat.tuneOver);
  const rules = [{ value: BALANCE_USUAL, text: 'tune leads' }, { value: 0, text: 'level' }];
  return { title: 'Tune over accompaniment', curves: [{ name: '', points, second: false }], low: BALANCE_LOW, high: BALANCE_HIGH, rules, words: [] };
}

/** Points of the beats in the shown visits. */
function beatPoints({ reading: { score }, shown, names }: LaneParts, beats: readonly BeatLevel[], valueOf: (beat: BeatLevel) => BeatLevel['right']): readonly CurvePoint[] {
  let before: BeatLevel | null = null;
  return beats.flatMap((beat): CurvePoint[] => {
    const barIndex = score.order[beat.visitIndex]?.barIndex ?? -1;
    const visit = shown.get(barIndex);
    const value = valueOf(beat);
    if (visit?.visitIndex !== beat.visitIndex || visit.stretch !== beat.stretch || !value.measured) return [];
    const apart: boolean = before === null || before.stretch !== beat.stretch || Math.abs(before.visitIndex - beat.visitIndex) > 1;
    before = beat;
    return [{ tick: writtenTick(score, beat), value: value.value, barIndex, apart, title: `${names.long(barIndex)}: ${Math.round(value.value)}` }];
  }).sort((a, b) => a.tick - b.tick);
}

/** The written tick of a beat of the playing order. */
function writtenTick(score: Score, { visitIndex, tick }: BeatLevel): number {
  const visit = score.order[visitIndex];
  return (score.bars[visit?.barIndex ?? -1]?.startTick ?? 0) + tick - (visit?.startTick ?? 0);
}
