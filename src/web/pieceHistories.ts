/** What pupils met in a piece, from what is kept of their recordings, and how that is said. */
import type { BarSpan } from '../analysis/index.js';
import { countInWords, groupBy } from '../base/index.js';
import type { Experience, PieceHistory } from '../progress/index.js';
import type { FiledRecording } from '../store/index.js';
import { barsOf } from './glance.js';
import type { Room } from './shared.js';

/** Aspects in which a bar trips somebody. */
const TRIPS: ReadonlySet<string> = new Set(['notes', 'route', 'rhythm', 'pulse']);

/** Remarks on more bars than this (>) are habits of the whole piece, and no bar of it trips. */
const MOST_BARS = 8;

/** One history a pupil. */
export function pieceHistories(room: Pick<Room, 'glances'>, recordings: readonly FiledRecording[]): readonly PieceHistory[] {
  return [...groupBy(recordings, ({ pupilId }) => pupilId).values()].map((own) => {
    const glances = own.flatMap((recording) => room.glances.at(recording) ?? []);
    const trips = glances.flatMap(({ remarks }) => remarks.filter(({ aspect }) => TRIPS.has(aspect)).map(({ bars }) => bars.flatMap(barsOf)));
    return { played: new Set(glances.flatMap(({ played }) => played.flatMap(barsOf))), tripped: new Set(trips.filter((bars) => bars.length <= MOST_BARS).flat()) };
  });
}

/** Every bar of some places. */
export function barsIn(places: readonly BarSpan[]): readonly number[] {
  return places.flatMap(({ fromBar, toBar }) => barsOf([fromBar, toBar]));
}

/** "Tripped two of three pupils."; "" where nobody has played it. */
export function experienceInWords({ tripped, of }: Experience): string {
  if (of === 0) return '';
  if (of === 1) return tripped === 1 ? 'Tripped the one pupil who has played it.' : '';
  if (tripped === of) return `Tripped all ${countInWords(of)} pupils.`;
  return tripped === 0 ? `Tripped none of ${countInWords(of)} pupils.` : `Tripped ${countInWords(tripped)} of ${countInWords(of)} pupils.`;
}
