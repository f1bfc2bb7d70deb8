/**
 * Question: what should be heard, one key press at a time, repeats written out?
 * Conventions: unfolded ticks, ends exclusive; `pass` counts from 1. Source for ties: MusicXML 4.0 (W3C).
 * It does not tell how ornaments are played out: an ornamented note is one occurrence with its sign.
 */
import { InputError } from '../base/index.js';
import { MAX_OCCURRENCES } from './limits.js';
import type { Bar, BarVisit, Occurrence, ScoreNote } from './types.js';
import type { WarningList } from './warnings.js';

/**
 * How far apart the end of a tied note and the start of its continuation may lie, in crotchets (inclusive): room for
 * tuplets that a program has rounded to whole divisions, far below the shortest note value in use.
 */
const TIE_GAP_QUARTERS = 1 / 32;

/**
 * How much earlier (exclusive, in crotchets) a tied note of the same voice may end before its continuation begins:
 * in written-out arpeggios the small notes are tied into the chord over the notes that follow them.
 */
const ARPEGGIO_GAP_QUARTERS = 1 / 2;

/** An occurrence that may still grow by ties. */
interface GrowingOccurrence extends Omit<Occurrence, 'index'> {
  readonly tied: number[];
  endTick: number;
  /** Place among sounds of one onset; only serves the order. */
  readonly rank: number;
}

/** A sounding note whose tie waits for its continuation. */
interface OpenTie {
  readonly occurrence: GrowingOccurrence;
  /** The written note whose tie is open: the last of the chain so far. */
  readonly note: ScoreNote;
  /** Unfolded ticks at which the continuation is due. */
  readonly endTick: number;
}

/** What the sounding notes are made from. */
export interface WrittenScore {
  readonly ticksPerQuarter: number;
  readonly bars: readonly Bar[];
  readonly notes: readonly ScoreNote[];
  readonly order: readonly BarVisit[];
}

/**
 * What sounds along the playing order: one occurrence a written note and pass, cue notes left out. Ties are merged
 * along the playing order (MusicXML 4.0: `tie` is sound, `tied` and slurs are not): a tie's end whose partner did not
 * sound just before is a sound of its own. Ordered by onset, then after-notes and grace notes before full notes, then
 * pitch, then place in the file.
 * @throws InputError `too-large` where repeats make more than MAX_OCCURRENCES sounds
 */
export function soundingNotes(score: WrittenScore, warnings: WarningList): readonly Occurrence[] {
  const byBar = notesByBar(score);
  const merger = new TieMerger(score.ticksPerQuarter);
  for (const visit of score.order) {
    const shift = visit.startTick - (score.bars[visit.barIndex]?.startTick ?? 0);
    for (const note of byBar.get(visit.barIndex) ?? []) merger.take(note, visit, shift);
    if (merger.sounds.length > MAX_OCCURRENCES)
      throw new InputError('too-large', `With its repeats written out this piece has more than ${MAX_OCCURRENCES} notes.`);
  }
  warnOfLooseTies(score, merger, warnings);
  return merger.sounds
    .toSorted(
      (a, b) => a.onsetTick - b.onsetTick || a.rank - b.rank || a.midi - b.midi || a.visitIndex - b.visitIndex || a.noteIndex - b.noteIndex,
    )
    .map((sound, index) => finished(sound, index));
}

/** Place among notes of one onset: after-notes of what came before, then grace notes, then full notes (0). */
function rankOf(note: ScoreNote): number {
  if (note.grace === null) return 0;
  return note.grace.after ? -1e6 - note.grace.before : -note.grace.before;
}

/** Sounding notes of every bar in order of time, so that a tie's start always comes before its end. */
function notesByBar(score: WrittenScore): ReadonlyMap<number, readonly ScoreNote[]> {
  const groups = new Map<number, ScoreNote[]>(score.bars.map((bar) => [bar.index, []]));
  for (const note of score.notes) if (!note.cue) groups.get(note.barIndex)?.push(note);
  for (const group of groups.values()) group.sort((a, b) => a.onsetTick - b.onsetTick || rankOf(a) - rankOf(b) || a.index - b.index);
  return groups;
}

/** Joins tied notes while walking along the playing order. */
class TieMerger {
  readonly sounds: GrowingOccurrence[] = [];
  /** Written notes whose tie found its other end at least once. */
  readonly continued = new Set<number>();
  readonly #open = new Map<number, OpenTie[]>();
  readonly #gapTicks: number;
  readonly #arpeggioGapTicks: number;

  constructor(ticksPerQuarter: number) {
    this.#gapTicks = ticksPerQuarter * TIE_GAP_QUARTERS;
    this.#arpeggioGapTicks = ticksPerQuarter * ARPEGGIO_GAP_QUARTERS;
  }

  /** Takes the next note along the playing order, its written ticks shifted to the visit's place. */
  take(note: ScoreNote, visit: BarVisit, shift: number): void {
    const onsetTick = note.onsetTick + shift;
    const endTick = onsetTick + note.lengthTicks;
    const partner = note.tieStop ? this.#partner(note, onsetTick) : null;
    const occurrence = partner?.occurrence ?? newOccurrence(note, visit, { onsetTick, endTick });
    if (partner === null) this.sounds.push(occurrence);
    else {
      occurrence.tied.push(note.index);
      occurrence.endTick = endTick;
      this.continued.add(note.index).add(partner.note.index);
    }
    if (note.tieStart) this.#open.set(note.pitch.midi, [...(this.#open.get(note.pitch.midi) ?? []), { occurrence, note, endTick }]);
  }

  /** The open tie that ends here on the same key: of the same voice first, then of the same stave, then any. */
  #partner(note: ScoreNote, onsetTick: number): OpenTie | null {
    const open = (this.#open.get(note.pitch.midi) ?? []).filter(
      (tie) => onsetTick - tie.endTick < this.#arpeggioGapTicks || onsetTick - tie.endTick <= this.#gapTicks,
    );
    const touching = open.filter((tie) => Math.abs(tie.endTick - onsetTick) <= this.#gapTicks);
    const sameVoice = (tie: OpenTie): boolean => tie.note.voice === note.voice;
    const sameStaff = (tie: OpenTie): boolean => tie.note.staff === note.staff;
    const partner =
      touching.find((tie) => sameVoice(tie) && sameStaff(tie)) ??
      touching.find(sameVoice) ??
      touching.find(sameStaff) ??
      touching[0] ??
      open.find((tie) => tie.endTick <= onsetTick && sameVoice(tie) && sameStaff(tie)) ??
      null;
    this.#open.set(
      note.pitch.midi,
      open.filter((tie) => tie !== partner),
    );
    return partner;
  }
}

/** A sound that begins with this note. */
function newOccurrence(note: ScoreNote, visit: BarVisit, at: { readonly onsetTick: number; readonly endTick: number }): GrowingOccurrence {
  return {
    noteIndex: note.index,
    tied: [note.index],
    visitIndex: visit.index,
    pass: visit.pass,
    barIndex: note.barIndex,
    ...at,
    midi: note.pitch.midi,
    staff: note.staff,
    rank: rankOf(note),
  };
}

/** The record of a sounding note, without what only served to order it. */
function finished(sound: GrowingOccurrence, index: number): Occurrence {
  const { noteIndex, tied, visitIndex, pass, barIndex, onsetTick, endTick, midi, staff } = sound;
  return { index, noteIndex, tied, visitIndex, pass, barIndex, onsetTick, endTick, midi, staff };
}

/** Warns of tie ends that never joined anything in any pass. */
function warnOfLooseTies(score: WrittenScore, merger: TieMerger, warnings: WarningList): void {
  const played = new Set(score.order.map((visit) => visit.barIndex));
  for (const note of score.notes) {
    if (note.cue || note.letRing || !(note.tieStart || note.tieStop) || !played.has(note.barIndex) || merger.continued.has(note.index))
      continue;
    warnings.add(score.bars[note.barIndex]?.number ?? null, 'A tie has no note at its other end; the note is read as a sound of its own');
  }
}
