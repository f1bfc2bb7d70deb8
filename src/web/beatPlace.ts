import { ordinalInWords, word, type Language } from '../base/index.js';
import { beatTicks, beatUnit, type Score } from '../score/index.js';

/** Values that count the thirds of a dotted beat. */
const THIRDS = { 4: 'crotchet', 8: 'quaver', 16: 'semiquaver' } as const;

/**
 * A place within a bar as one counts it: "1", 'the "&" of 2', "the third quaver" in compound time, "after 2" for anything finer. An
 * upbeat is counted as the end of the full bar that it stands for.
 * @param offset crotchets from the start of the bar
 */
export function beatPlace(score: Pick<Score, 'bars' | 'ticksPerQuarter'>, { barIndex, offset }: { readonly barIndex: number; readonly offset: number }, language: Language = 'british'): string {
  const bar = score.bars[barIndex];
  if (bar === undefined) return '1';
  const lead = bar.implicit ? Math.max(0, bar.nominalTicks - bar.lengthTicks) : 0;
  const ticks = lead + Math.round(offset * score.ticksPerQuarter);
  const beat = beatTicks(score, bar);
  const count = Math.floor(ticks / beat) + 1;
  const within = ticks % beat;
  if (within === 0) return String(count);
  const compound = beatUnit(bar.time).crotchets * bar.time.beatType !== 4;
  const third = (ticks * 3) / beat;
  const unit = THIRDS[bar.time.beatType === 16 ? 16 : bar.time.beatType === 4 ? 4 : 8];
  if (compound && Number.isInteger(third)) return `the ${ordinalInWords(third + 1)} ${word(unit, language)}`;
  return !compound && within * 2 === beat ? `the “&” of ${count}` : `after ${count}`;
}

/** The same after a preposition: "on 1", "after 2". */
export function onBeat(score: Pick<Score, 'bars' | 'ticksPerQuarter'>, place: { readonly barIndex: number; readonly offset: number }, language: Language = 'british'): string {
  const name = beatPlace(score, place, language);
  return name.startsWith('after') ? name : `on ${name}`;
}
