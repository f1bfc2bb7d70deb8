/** Two recordings of one piece as one record: what changed in words, the systems it changed in, and the map of bars. */
import { listInWords, sentenceCase } from '../../base/index.js';
import type { Engraving } from '../../engrave/index.js';
import type { Aspect } from '../../judge/index.js';
import type { Reading } from '../../pipeline/index.js';
import { compareRecordings, type Change } from '../../progress/index.js';
import { tempoInWords, tempoOf } from '../../review/index.js';
import { barNames } from '../../score/index.js';
import { asDecisions, type FiledRecording } from '../../store/index.js';
import { barAnchors } from '../anchors.js';
import { holding } from '../decisionsHere.js';
import { momentInWords, type MomentWords } from '../moments.js';
import { pieceAddress, pupilAddress, recordingAddress, type Room } from '../shared.js';
import { changedSystems, type ChangedSystem } from './changedSystems.js';

/** One of the two. */
export interface ComparedView {
  readonly when: MomentWords;
  readonly href: string;
  /** "About crotchet = 60, marked 72". */
  readonly tempo: string;
}

/** A change with the address of its first bar in the later review. */
export interface ChangeView {
  readonly text: string;
  readonly href: string;
}

/** Everything the page shows. */
export interface ComparisonView {
  readonly pupil: FiledRecording['pupil'];
  readonly piece: FiledRecording['piece'];
  readonly pupilHref: string;
  readonly pieceHref: string;
  readonly earlier: ComparedView;
  readonly later: ComparedView;
  readonly better: readonly ChangeView[];
  readonly worse: readonly ChangeView[];
  /** "No evidence of a change: notes and pulse."; "" where everything changed. */
  readonly unchanged: string;
  readonly notCompared: readonly string[];
  readonly defs: string;
  readonly systems: readonly ChangedSystem[];
}

/** What the page is made from. */
export interface ComparisonParts {
  readonly room: Room;
  readonly earlier: FiledRecording;
  readonly later: FiledRecording;
  readonly readings: { readonly earlier: Reading; readonly later: Reading };
  readonly engraving: Engraving;
}

/** Builds the page. */
export function comparisonView({ room, earlier, later, readings, engraving }: ComparisonParts): ComparisonView {
  const { language } = room;
  const judged = (reading: Reading, recording: FiledRecording) => ({ ...reading, language, decisions: asDecisions(holding(room, recording)) });
  const comparison = compareRecordings(judged(readings.earlier, earlier), judged(readings.later, later));
  const { score } = readings.later;
  const anchors = barAnchors(score);
  const linked = (recording: FiledRecording) => ({ text, places }: Change): ChangeView => ({ text, href: `${recordingAddress(recording)}#${anchors[places[0]?.fromBar ?? 0] ?? ''}` });
  return {
    pupil: later.pupil,
    piece: later.piece,
    pupilHref: pupilAddress(later.pupil.slug),
    pieceHref: pieceAddress(later.piece.slug),
    earlier: comparedView(room, earlier, readings.earlier),
    later: comparedView(room, later, readings.later),
    better: comparison.changes.filter(({ direction }) => direction === 'better').map(linked(earlier)),
    worse: comparison.changes.filter(({ direction }) => direction === 'worse').map(linked(later)),
    unchanged: unchangedInWords(comparison.unchanged),
    notCompared: comparison.notCompared,
    defs: engraving.defs,
    systems: changedSystems({ ...readings, engraving, comparison, names: barNames(score, language) }),
  };
}

/** One of the two in words. */
function comparedView(room: Room, recording: FiledRecording, { score, measures }: Reading): ComparedView {
  return {
    when: momentInWords(recording.receivedAt, room.now()),
    href: recordingAddress(recording),
    tempo: sentenceCase(tempoInWords(tempoOf(score, measures), room.language)),
  };
}

/** What was measured in both and shows no change. */
function unchangedInWords(aspects: readonly Aspect[]): string {
  return aspects.length === 0 ? '' : `No evidence of a change: ${listInWords(aspects)}.`;
}
