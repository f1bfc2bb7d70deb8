/**
 * The page of a piece as one record: everything it says and draws, found once from score, engraving and analysis. The template only
 * lays it out. Whatever of the three is missing, the rest still stands, with the reason.
 */
import { inLanguage, keyInWords, type Analysis, type PedalPlan } from '../analysis/index.js';
import { countInWords, InputError, listInWords, sentenceCase, word, type Language } from '../base/index.js';
import type { Engraving } from '../engrave/index.js';
import type { SourceFile } from '../pipeline/index.js';
import { experienceAt, sinkUntrue, unforeseenBars, type PieceHistory } from '../progress/index.js';
import { barNames, beatUnit, tempoMarkOf, type Bar, type BarNames, type Score } from '../score/index.js';
import { barAnchors } from './anchors.js';
import { told } from './errors.js';
import { rangesOf } from './glance.js';
import { barsIn } from './pieceHistories.js';
import { remarkViews, tripViews, type RemarkGround } from './pieceRemarks.js';
import { planPlaces, planView, type PlanHistory } from './planView.js';
import { pieceSystems, type PlacesIn } from './pieceSystems.js';
import { pieceTables } from './pieceTables.js';
import type { PieceComment, PieceScore, PieceView, PieceWords, RemarkView } from './pieceTypes.js';
import type { Room } from './shared.js';

/** What a piece's page is made from. */
export interface PieceParts {
  readonly room: Room;
  readonly widthPx: number;
  /** The kept score file. @throws InputError `not-found` */
  readonly file: () => SourceFile;
  /** Comments on recordings of the piece, by the bar that they begin at. */
  readonly comments: ReadonlyMap<number, readonly PieceComment[]>;
  /** What pupils met in it. */
  readonly histories: readonly PieceHistory[];
  readonly placesIn: PlacesIn;
  /** Versions of the pedal plan. */
  readonly planning: PlanHistory;
}

/** A plan for a score that has none. */
const NO_PLAN: PedalPlan = { entries: [], basis: 'none' };

/** Reads, analyses and lays out. A score that cannot be read gives the reason in `problem`. */
export async function pieceView(parts: PieceParts): Promise<PieceView> {
  const { room, widthPx } = parts;
  try {
    const file = parts.file();
    const [score, engraving, analysed] = await Promise.all([room.pipeline.score(file), room.pipeline.engraving(file, widthPx), analysisOf(room, file)]);
    return viewOf(parts, { score, engraving, ...analysed });
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { facts: '', warnings: [], problem: told(error, room.language), missing: null, score: { widthPx, defs: '', systems: [], fallback: null }, words: null, plan: null };
  }
}

/** What was found in a score. */
interface Found {
  readonly score: Score;
  readonly engraving: Engraving;
  readonly analysis: Analysis | null;
  readonly problem: string | null;
}

/** The analysis, or why there is none. */
async function analysisOf(room: Room, file: SourceFile): Promise<Pick<Found, 'analysis' | 'problem'>> {
  try {
    return { analysis: await room.pipeline.analysis(file), problem: null };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { analysis: null, problem: told(error, room.language) };
  }
}

/** The whole page. */
function viewOf({ room, comments, histories, placesIn, planning }: PieceParts, found: Found): PieceView {
  const { score, engraving } = found;
  const { language } = room;
  const analysis = found.analysis === null ? null : experienced(language === 'british' ? found.analysis : inLanguage(score, found.analysis, language), histories);
  const anchors = barAnchors(score);
  const plan = analysis?.pedalPlan ?? NO_PLAN;
  const shared = { score, anchors, language, names: barNames(score, language) };
  const sounds = analysis !== null && plan.entries.length > 0;
  const trips = analysis === null ? [] : tripViews(analysis.pitfalls, histories, shared);
  const shown: PieceScore = {
    widthPx: engraving.widthPx,
    defs: engraving.defs,
    fallback: engraving.fallback,
    systems: pieceSystems({ ...shared, engraving, analysis, plan, trips, comments, placesIn, planPlaces: sounds ? planPlaces(shared) : [] }),
  };
  const words: PieceWords | null = analysis === null ? null : {
    before: remarkViews(analysis.notes.beforeTeaching, shared),
    trips,
    unforeseen: unforeseenView(analysis.pitfalls, histories, shared),
    listen: remarkViews(analysis.notes.listenFor, shared),
    tables: pieceTables({ ...shared, analysis }),
  };
  return { facts: factsOf(score, analysis, language), warnings: warningsOf(score), problem: null, missing: missingOf(found), score: shown, words, plan: sounds ? planView({ ...shared, plan }, planning) : null };
}

/** The pitfalls with those last that never came true. */
function experienced(analysis: Analysis, histories: readonly PieceHistory[]): Analysis {
  return { ...analysis, pitfalls: sinkUntrue(analysis.pitfalls, ({ places }) => experienceAt(histories, barsIn(places))) };
}

/** Bars that tripped pupils and that no pitfall names. */
function unforeseenView(pitfalls: Analysis['pitfalls'], histories: readonly PieceHistory[], ground: RemarkGround & { readonly names: BarNames }): RemarkView | null {
  const bars = unforeseenBars(histories, new Set(pitfalls.flatMap(({ places }) => barsIn(places))));
  if (bars.length === 0) return null;
  const places = rangesOf(bars).map(([fromBar, toBar]) => ({ fromBar, toBar }));
  const text = `${sentenceCase(listInWords(places.map(({ fromBar, toBar }) => ground.names.range(fromBar, toBar))))} tripped several pupils, though nothing foretold it.`;
  return remarkViews([{ text, places }], ground)[0] ?? null;
}

/** Why the analysis is missing or thin, in one sentence; null where it is whole. */
function missingOf({ score, analysis, problem }: Found): string | null {
  if (analysis === null) return `The score could not be analysed, so only the engraving is here. ${problem ?? ''}`.trim();
  if (score.notes.length === 0) return 'The score holds only rests: there is no key, no harmony and no form to tell, and nothing for the pedal.';
  if (analysis.harmonies.every(({ root }) => root === null)) return 'No chords could be told from the notes, so harmony and cadences are missing; the pedal plan rests on the printed marks alone.';
  return null;
}

/** "A minor; an upbeat and 25 bars; four crotchets in a bar; Tempo di marcia, crotchet = 104." */
function factsOf(score: Score, analysis: Analysis | null, language: Language): string {
  const first = score.bars.find((bar) => !bar.implicit);
  if (first === undefined) return '';
  const counted = score.bars.filter((bar) => !bar.implicit).length;
  const upbeat = score.bars[0]?.implicit === true ? `an ${word('upbeat', language)} and ` : '';
  const length = `${upbeat}${countInWords(counted)} ${word(counted === 1 ? 'bar' : 'bars', language)}`;
  const key = analysis?.key === null || analysis === null ? '' : keyInWords(analysis.key);
  return `${sentenceCase([key, length, metreInWords(first, language), tempoMark(score, language)].filter((part) => part !== '').join('; '))}.`;
}

/** "four crotchets in a bar". */
function metreInWords({ time }: Bar, language: Language): string {
  const unit = beatUnit(time);
  const beats = (time.beats * 4) / time.beatType / unit.crotchets;
  return `${countInWords(beats)} ${word(unit.name, language)}${beats === 1 ? '' : 's'} in a ${word('bar', language)}`;
}

/** "Tempo di marcia, crotchet = 104". */
function tempoMark(score: Score, language: Language): string {
  const { unit, marked, words } = tempoMarkOf(score);
  const figure = marked === null ? '' : `${word(unit.name, language)} = ${Math.round(marked)}`;
  return [words, figure].filter((part) => part !== '').join(', ');
}

/** What is odd in the file, with its place. */
function warningsOf(score: Score): PieceView['warnings'] {
  return score.warnings.map(({ bar, text }) => ({ where: bar === null ? '' : `Bar ${bar}: `, text }));
}
