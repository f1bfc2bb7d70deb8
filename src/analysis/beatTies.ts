/**
 * The question: which notes are tied over a bar line?
 * Conventions: the place is the bar in which the held note goes on; of several tied notes of one hand the highest is named.
 * Method: the tie chains of the score. A frequent slip is to strike a tied note again (Repp 1996, Music Perception
 * 14:161-184); it is likelier where the same hand has other notes to strike at that moment.
 * It does not look at ties within a bar; they show as syncopation.
 */
import { offsetInBar } from './beatMetre.js';
import { spotAt, type BeatContext } from './beatContext.js';
import type { BeatPlace } from './beatTypes.js';
import { BOTH_HANDS, type HandNote, type OneHand } from './handLines.js';

/** Ties over bar lines, of each hand, in order of time. */
export function tiesAcross(context: BeatContext): readonly BeatPlace[] {
  return BOTH_HANDS.flatMap((hand) => tiesOf(context, hand));
}

/** Ties of one hand: one place a bar line. */
function tiesOf(context: BeatContext, hand: OneHand): readonly BeatPlace[] {
  const highest = new Map<number, { readonly held: HandNote; readonly barIndex: number }>();
  for (const event of context.lines[hand]) {
    for (const held of event.notes) {
      for (const written of held.tied) {
        const bar = context.score.bars[written.barIndex];
        if (bar === undefined || written.onsetTick !== bar.startTick || written.barIndex === held.note.barIndex) continue;
        if ((highest.get(bar.startTick)?.held.midi ?? -1) < held.midi) highest.set(bar.startTick, { held, barIndex: bar.index });
      }
    }
  }
  const struck = new Set(context.lines[hand].map((event) => event.onsetTick));
  return [...highest].sort(([a], [b]) => a - b).map(([tick, { held, barIndex }]) => {
    const metre = context.metres[held.note.barIndex];
    const struckOff = metre !== undefined && offsetInBar(metre, held.onsetTick) % metre.beatTicks !== 0;
    const spot = spotAt(context, { barIndex, tick, hand });
    return { ...spot, kind: 'tieAcross', noteIndex: held.note.index, partial: struck.has(tick), struckOff };
  });
}
