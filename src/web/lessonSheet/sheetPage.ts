/** The lesson sheet as one record: what stands on it, its engraved excerpts, and how tightly it is set. */
import { joinedDefs } from '../../engrave/index.js';
import type { Reading } from '../../pipeline/index.js';
import type { FiledRecording } from '../../store/index.js';
import { nextLesson } from '../lessons.js';
import { reviewOf } from '../reviewOf.js';
import { recordingAddress, scoreFile, type Room } from '../shared.js';
import { densityOf, type Density } from './density.js';
import { barsOf, EXCERPT_PX, excerptOf, type Excerpt } from './excerpts.js';
import { firstBody, LONGEST, MOST_THINGS, readBody, type SheetBody, type SheetThing } from './sheetBody.js';

/** A thing to do with its bars engraved. */
export interface ThingView extends SheetThing {
  /** Null for an empty one, for one about the whole piece, and where the score cannot be engraved. */
  readonly svgs: readonly string[];
}

/** Everything the page shows. */
export interface SheetView {
  readonly pupil: FiledRecording['pupil'];
  readonly piece: FiledRecording['piece'];
  readonly address: string;
  readonly back: string;
  readonly today: { readonly iso: string; readonly words: string };
  readonly well: string;
  /** Always as many as there is room for; the last ones may be empty. */
  readonly things: readonly ThingView[];
  readonly next: string;
  readonly defs: string;
  readonly density: Density;
  readonly longest: typeof LONGEST;
  /** True where it was saved before. */
  readonly kept: boolean;
}

/** Address of a recording's lesson sheet. */
export function sheetAddress(recording: FiledRecording): string {
  return `${recordingAddress(recording)}/sheet`;
}

/** Builds the page. */
export async function sheetView(room: Room, recording: FiledRecording, reading: Reading): Promise<SheetView> {
  const review = reviewOf(room, recording, reading, room.language);
  const kept = room.store.lessonSheet(recording.id);
  const body = (kept === null ? null : readBody(kept.body)) ?? firstBody({
    review, comments: room.store.comments(recording.id), numbers: reading.score.bars.map(({ number }) => number), next: nextLesson(recording.pupil, room.now()),
  });
  const excerpts = await Promise.all(body.things.map((thing) => excerptFor(room, recording, { reading, review, thing })));
  return {
    pupil: recording.pupil, piece: recording.piece,
    address: sheetAddress(recording), back: recordingAddress(recording),
    today: dateOf(room.now()),
    well: body.well, next: body.next,
    things: Array.from({ length: MOST_THINGS }, (_, i) => thingView(body, excerpts, i)),
    defs: joinedDefs(excerpts.flatMap((one) => (one === null ? [] : [one.defs]))),
    density: densityOf(body, excerpts.map((one) => one?.heightPx ?? 0)),
    longest: LONGEST, kept: kept !== null,
  };
}

/** A day as it stands on paper: "Thursday 12 March 2026". */
function dateOf(now: Date): SheetView['today'] {
  const words = new Intl.DateTimeFormat('en-GB', { weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' }).format(now).replace(',', '');
  return { iso: now.toISOString(), words };
}

/** One thing, or the empty place for one. */
function thingView({ things }: SheetBody, excerpts: readonly (Excerpt | null)[], at: number): ThingView {
  return { ...(things[at] ?? { bars: ['', ''], words: '', practise: '' }), svgs: excerpts[at]?.svgs ?? [] };
}

/** The engraved bars of one thing; null for none. */
async function excerptFor(room: Room, recording: FiledRecording, { reading, review, thing }: { readonly reading: Reading; readonly review: Parameters<typeof excerptOf>[1]; readonly thing: SheetThing }): Promise<Excerpt | null> {
  const only = barsOf(thing, reading.score);
  if (only === null) return null;
  const engraving = await room.pipeline.engraving(scoreFile(room.store, room.store.score(recording.scoreId)), EXCERPT_PX, only);
  // a grid of bars would say nothing on paper
  return engraving.fallback === null ? excerptOf(reading, review, engraving) : null;
}
