/**
 * The pedal plan beside the score: how to read it, every change as a row that can be moved, set otherwise or taken away, and its versions. It
 * works by plain forms; a script only spares the page being sent anew.
 */
import { planTicks, type PedalEntry, type PedalKind, type PedalPlan } from '../analysis/index.js';
import { countInWords, type Language } from '../base/index.js';
import type { PlanPlace } from '../engrave/index.js';
import type { BarNames, Score } from '../score/index.js';
import type { PlanVersion } from '../store/index.js';
import { onBeat } from './beatPlace.js';
import { momentInWords, type MomentWords } from './moments.js';

/** What the foot does, in a table. */
const FOOT: Readonly<Record<PedalKind, string>> = { down: 'down', change: 'change', up: 'up', none: 'no pedal', ring: 'let it ring' };

/** So many older versions are offered. */
const MOST_VERSIONS = 8;

/** One place where the foot moves. */
export interface PlanRow {
  readonly tick: number;
  /** "7", "upbeat". */
  readonly bar: string;
  readonly href: string;
  /** "on 3". */
  readonly beat: string;
  readonly foot: string;
  readonly why: string;
  /** True for the beginning of the piece, which stays where it is. */
  readonly fixed: boolean;
}

/** A plan as it once was. */
export interface PlanVersionView {
  readonly id: number;
  readonly when: MomentWords;
  readonly text: string;
}

/** The plan of a piece. */
export interface PlanView {
  /** Address of the forms. */
  readonly action: string;
  /** How to read the line; empty where there is none. */
  readonly words: string;
  /** How far it is the teacher's; null where it is the program's. */
  readonly hers: string | null;
  readonly rows: readonly PlanRow[];
  readonly versions: readonly PlanVersionView[];
  /** What was just done, and the address that undoes it; null without. */
  readonly message: { readonly text: string; readonly undo: string; readonly label: string } | null;
}

/** What the plan is told from. */
export interface PlanGround {
  readonly score: Score;
  readonly plan: PedalPlan;
  readonly names: BarNames;
  readonly anchors: readonly string[];
  readonly language: Language;
}

/** What the address says was just done: the version that was made, or taken back. */
export interface PlanNow {
  readonly id: number;
  readonly removed: boolean;
}

/** Versions of the plan, and what is known of this moment. */
export interface PlanHistory {
  readonly action: string;
  /** Newest first. */
  readonly versions: readonly PlanVersion[];
  readonly now: PlanNow | null;
  readonly moment: Date;
}

/** The whole panel. */
export function planView(ground: PlanGround, { action, versions, now, moment }: PlanHistory): PlanView {
  const held = versions.find(({ removedAt }) => removedAt === null);
  return {
    action,
    words: planInWords(ground.plan),
    hers: held === undefined || held.plan === null ? null : hersInWords(ground.plan),
    rows: ground.plan.entries.map((entry, i) => rowOf(ground, entry, i === 0)),
    versions: versions.filter((one) => one !== held).slice(0, MOST_VERSIONS).map((one) => ({ id: one.id, when: momentInWords(one.createdAt, moment), text: one.plan === null ? 'the program’s own' : `${one.plan.length} places` })),
    message: messageOf(action, versions, now),
  };
}

/** What was just done, if the store knows of it. */
function messageOf(action: string, versions: readonly PlanVersion[], now: PlanNow | null): PlanView['message'] {
  const version = versions.find(({ id }) => id === now?.id);
  if (now === null || version === undefined || (version.removedAt !== null) !== now.removed) return null;
  return now.removed
    ? { text: 'Taken back.', undo: `${action}/${version.id}/restore`, label: 'do it again' }
    : { text: 'The plan is changed; every review of the piece follows it.', undo: `${action}/${version.id}/remove`, label: 'undo' };
}

/** How to read the line of the pedal; what is dry on the whole is said here and not drawn. */
function planInWords({ entries, basis }: PedalPlan): string {
  if (entries.length === 0) return '';
  if (entries.every(({ kind }) => kind === 'none')) return 'None: nothing is marked, and the writing does not ask for it.';
  const line = 'the line lies low while the foot is down, and each peak is a change';
  const hers = entries.some(({ source }) => source === 'teacher') ? ' or you set it' : '';
  if (!entries.some(({ source, kind }) => source === 'harmony' && kind !== 'none')) return `As the score prints it${hers === '' ? '' : ' and as you set it'}: ${line}.`;
  const source = basis === 'both' || hers !== '' ? `Solid where the score prints it${hers}, dashed where it comes from the harmony` : 'The score marks none; dashed lines come from the harmony';
  return `${source}; ${line}.`;
}

/** "You set the foot in three places." */
function hersInWords({ entries }: PedalPlan): string {
  const own = entries.filter(({ source }) => source === 'teacher').length;
  return own === 0 ? 'You looked it through; nothing differs from the program’s.' : `You set the foot in ${countInWords(own)} ${own === 1 ? 'place' : 'places'}.`;
}

/** One row. */
function rowOf({ score, names, anchors, language }: PlanGround, entry: PedalEntry, fixed: boolean): PlanRow {
  return {
    tick: entry.fromTick,
    bar: names.short(entry.barIndex) || names.long(entry.barIndex).replace(/^the /, ''),
    href: `#${anchors[entry.barIndex] ?? 'score'}`,
    beat: onBeat(score, entry, language),
    foot: FOOT[entry.kind],
    why: entry.reason,
    fixed,
  };
}

/** Every place where a change can be put, by the name that a person gives it. */
export function planPlaces({ score, names, language }: Pick<PlanGround, 'score' | 'names' | 'language'>): readonly PlanPlace[] {
  let barIndex = 0;
  return planTicks(score).map((tick) => {
    while (tick >= (score.bars[barIndex + 1]?.startTick ?? Infinity)) barIndex += 1;
    const offset = (tick - (score.bars[barIndex]?.startTick ?? 0)) / score.ticksPerQuarter;
    return { tick, name: `${names.long(barIndex)}, ${onBeat(score, { barIndex, offset }, language)}` };
  });
}

/** What a bar's drawer offers: what is planned in it, where something can begin, and where it can end. */
export interface BarPlan {
  readonly rows: readonly PlanRow[];
  readonly from: readonly { readonly value: number; readonly name: string }[];
  readonly until: readonly { readonly value: number; readonly name: string }[];
}

/** Ends offered in a bar's drawer, bars after its beginning. */
const ENDS_AFTER_BARS = [1, 2, 4] as const;

/** The plan of one bar. */
export function barPlan(ground: PlanGround, places: readonly PlanPlace[], barIndex: number): BarPlan {
  const { score, plan, names, language } = ground;
  const bar = score.bars[barIndex];
  if (bar === undefined) return { rows: [], from: [], until: [] };
  const own = ({ tick }: { readonly tick: number }): boolean => tick >= bar.startTick && tick < bar.startTick + Math.max(1, bar.lengthTicks);
  const rows = plan.entries.map((entry, i) => rowOf(ground, entry, i === 0)).filter(own);
  const from = places.filter(own).map(({ tick }) => ({ value: tick, name: onBeat(score, { barIndex, offset: (tick - bar.startTick) / score.ticksPerQuarter }, language) }));
  const until = ENDS_AFTER_BARS.flatMap((bars) => {
    const next = score.bars[barIndex + bars];
    const last = score.bars[barIndex + bars - 1];
    const end = next?.startTick ?? (last === undefined ? null : last.startTick + last.lengthTicks);
    return end === null ? [] : [{ value: end, name: `the end of ${names.long(barIndex + bars - 1)}` }];
  });
  return { rows, from, until };
}

