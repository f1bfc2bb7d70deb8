/*
 * The teacher's question: at a change of harmony, which notes are old, which are new, and which of the new are the harmony?
 *
 * Conventions: old is what was struck before the change and still rings when the new sound begins.
 * Method: by the written tick, so that a rolled chord or an early bass is no old note; notes without a written one by their time.
 *   What is written to go on (tied over, held) is neither. Passing notes of the new harmony do not make an old note welcome.
 * Source: our own rule.
 * What it does not tell: whether the old is heard.
 */
import type { Analysis } from '../analysis/index.js';
import { firstIndex } from '../base/index.js';
import type { Score } from '../score/index.js';
import type { ChangePoint } from './changePoints.js';
import type { NewHarmony } from './clash.js';
import { silentFrom, type Ring } from './ringing.js';
import type { StretchNote } from './stretchNotes.js';

/** A played note as it rings. */
export interface RingingNote extends StretchNote {
  readonly ring: Ring;
}

/** Old and new at one change. */
export interface OldNew {
  readonly old: readonly RingingNote[];
  readonly fresh: readonly RingingNote[];
  readonly harmony: NewHarmony;
}

/** Written notes of one score by tick, and what is foreign to their harmonies. */
export interface WrittenGround {
  readonly score: Score;
  /** Places in `Score.notes`. */
  readonly foreign: ReadonlySet<number>;
  /** Places in `Score.occurrences`, by onset, with the latest end so far: those before it that can still sound. */
  readonly reach: readonly number[];
}

/** What is needed of the score, once. */
export function writtenGround(score: Score, { harmonies }: Pick<Analysis, 'harmonies'>): WrittenGround {
  const foreign = new Set(harmonies.flatMap(({ nonChordNotes }) => nonChordNotes.map(({ noteIndex }) => noteIndex)));
  let latest = 0;
  const reach = score.occurrences.map(({ endTick }) => (latest = Math.max(latest, endTick)));
  return { score, foreign, reach };
}

/** Splits the notes of a stretch at each of its changes. `notes` and `points` are in order of time. */
export function oldAndNew(ground: WrittenGround, notes: readonly RingingNote[], points: readonly ChangePoint[]): readonly OldNew[] {
  let ringing: RingingNote[] = [];
  let next = 0;
  return points.map((point) => {
    while (next < notes.length && (notes[next]?.onsetS ?? Infinity) < point.untilS) {
      const note = notes[next];
      if (note !== undefined) ringing.push(note);
      next += 1;
    }
    ringing = ringing.filter(({ ring }) => silentFrom(ring) > point.soundS);
    const old = ringing.filter((note) => isOld(note, point) && !goesOn(note, point));
    const fresh = ringing.filter((note) => isNew(note, point));
    return { old, fresh, harmony: newHarmony(ground, point, fresh) };
  });
}

/** A place inside a harmony at which notes foreign to it give way to its own. */
export interface InnerPoint {
  readonly point: ChangePoint;
  /** Unfolded ticks of the harmony's own note. */
  readonly tick: number;
  readonly soundS: number;
  readonly untilS: number;
  readonly sounds: OldNew;
}

/**
 * Where, inside the harmonies of a stretch, foreign notes are followed by the harmony's own (old are the foreign ones), and where a passing
 * chord of at least two foreign notes struck together begins (old is the harmony, new the passing chord). `split` is parallel to `points`.
 */
export function innerPoints({ foreign }: WrittenGround, points: readonly ChangePoint[], split: readonly OldNew[]): readonly InnerPoint[] {
  return points.flatMap((point, i): readonly InnerPoint[] => {
    const { fresh = [], harmony } = split[i] ?? {};
    if (harmony === undefined || point.harmony === null) return [];
    const written = fresh.filter(({ tick, grace }) => tick !== null && !grace);
    const strange = new Set(written.filter(({ noteIndex }) => noteIndex !== null && foreign.has(noteIndex)));
    const runs = runsOf(written, strange);
    return runs.flatMap((run, k): readonly InnerPoint[] => {
      const [first, before] = [run.notes[0], runs[k - 1]];
      if (first === undefined || first.tick === null || before === undefined) return [];
      const { tick, onsetS } = first;
      const ended = written.filter((one) => one.tick !== null && one.tick < tick && one.endTick !== null && one.endTick <= tick && strange.has(one) !== run.strange && silentFrom(one.ring) > onsetS);
      const end = run.strange ? chordEnd(run, written, strange) : undefined;
      const fresh = written.filter((one) => one.tick !== null && one.tick >= tick && one.tick < (end?.tick ?? Infinity) && (run.strange || !strange.has(one)));
      const classes = run.strange ? new Set(fresh.filter((one) => strange.has(one)).map(({ ring }) => ring.pitch % 12)) : harmony.classes;
      // foreign notes one after the other are a tune over the harmony; only struck together are they a chord of their own
      const together = new Set(run.notes.filter((one) => one.tick === tick && strange.has(one)).map(({ ring }) => ring.pitch % 12));
      if (ended.length === 0 || (run.strange && together.size < 2)) return [];
      return [{ point, tick, soundS: onsetS, untilS: Math.max(onsetS, end?.onsetS ?? point.untilS), sounds: { old: ended, fresh, harmony: { classes, lowest: -Infinity } } }];
    });
  });
}

/** Where a passing chord ends: where the hand that has its lowest note goes back to the harmony, whatever the tune does above it. */
function chordEnd(run: Run, written: readonly RingingNote[], strange: ReadonlySet<RingingNote>): RingingNote | undefined {
  const tick = run.notes[0]?.tick ?? 0;
  const low = run.notes.filter((one) => one.tick === tick && strange.has(one)).reduce<RingingNote | undefined>((lowest, one) => (lowest === undefined || one.ring.pitch < lowest.ring.pitch ? one : lowest), undefined);
  return written.find((one) => one.tick !== null && one.tick > tick && one.hand === low?.hand && !strange.has(one));
}

/** Notes that follow one another, all with foreign notes among those struck together, or all without. */
interface Run {
  readonly strange: boolean;
  readonly notes: readonly RingingNote[];
}

/** Cuts the notes of one harmony where moments with foreign notes begin and end. */
function runsOf(written: readonly RingingNote[], strange: ReadonlySet<RingingNote>): readonly Run[] {
  const strangeTicks = new Set([...strange].map(({ tick }) => tick));
  const runs: { strange: boolean; notes: RingingNote[] }[] = [];
  for (const note of [...written].sort((one, other) => (one.tick ?? 0) - (other.tick ?? 0) || one.onsetS - other.onsetS)) {
    const isStrange = strangeTicks.has(note.tick);
    const last = runs.at(-1);
    if (last !== undefined && last.strange === isStrange) last.notes.push(note);
    else runs.push({ strange: isStrange, notes: [note] });
  }
  return runs;
}

/** Struck for what was before. */
function isOld({ tick, onsetS }: RingingNote, point: ChangePoint): boolean {
  return onsetS < point.soundS && (tick === null || tick < point.tick);
}

/** Written to sound on beyond the change. */
function goesOn({ endTick }: RingingNote, point: ChangePoint): boolean {
  return endTick !== null && endTick > point.tick;
}

/** Struck for the new harmony. */
function isNew({ tick, onsetS }: RingingNote, point: ChangePoint): boolean {
  return tick === null ? onsetS >= point.soundS : tick >= point.tick && tick < point.untilTick;
}

/** Notes written in the new harmony, held ones included, ornaments left out; of passing notes only if nothing else is there. */
function newHarmony({ score, foreign, reach }: WrittenGround, { tick, untilTick }: ChangePoint, fresh: readonly RingingNote[]): NewHarmony {
  const { occurrences } = score;
  const from = firstIndex(reach.length, (i) => (reach[i] ?? 0) > tick);
  const to = firstIndex(occurrences.length, (i) => (occurrences[i]?.onsetTick ?? Infinity) >= untilTick);
  const sounding = occurrences.slice(from, to).filter(({ onsetTick, endTick, noteIndex }) => (onsetTick >= tick || endTick > tick) && (score.notes[noteIndex]?.grace ?? null) === null);
  const own = sounding.filter(({ noteIndex }) => !foreign.has(noteIndex));
  const played = new Set(fresh.map(({ occurrence }) => occurrence));
  const members = own.length > 0 ? own : sounding;
  return {
    classes: new Set(members.map(({ midi }) => midi % 12)),
    lowest: members.reduce((low, { index, midi }) => (played.has(index) ? Math.min(low, midi) : low), Infinity),
  };
}
