/** All files of the demo room, made in memory. */
import type { Piece } from './piece.js';
import type { TakePlan } from './plan.js';
import { makeTake } from './record.js';
import { pieces, roomJson, takes, TEACHER, unreadableFile } from './room.js';
import { writeScore } from './scoreWriter.js';
import { midiBytes, plannedJson, soundFileBytes, truthTsv } from './takeFiles.js';

/** A file of the demo room: its path below `sample-recordings/`, with `/`, and what it holds. */
export interface DemoFile {
  readonly path: string;
  readonly bytes: Uint8Array;
}

/** Every made file: `room.json`, the scores, the recordings with plan and truth, and one that cannot be read. The same bytes each time. */
export function demoFiles(): readonly DemoFile[] {
  const unreadable = { path: unreadableFile.file, bytes: soundFileBytes() };
  return [text('room.json', roomJson()), unreadable, ...pieces.flatMap((piece) => [text(`${piece.slug}/score.musicxml`, writeScore(piece, TEACHER)), ...takeFiles(piece)])];
}

/** The recordings of one piece. */
function takeFiles(piece: Piece): readonly DemoFile[] {
  return takes.filter((plan) => plan.piece === piece.slug).flatMap((plan) => filesOf(piece, plan));
}

/** Recording, plan and truth. */
function filesOf(piece: Piece, plan: TakePlan): readonly DemoFile[] {
  const take = makeTake(piece, plan);
  const path = `${piece.slug}/${plan.name}`;
  return [
    { path: `${path}.mid`, bytes: midiBytes(take, piece.title) },
    text(`${path}.planned.json`, plannedJson(plan)),
    text(`${path}.truth.tsv`, truthTsv(take)),
  ];
}

/** A text file, UTF-8. */
function text(path: string, content: string): DemoFile {
  return { path, bytes: new TextEncoder().encode(content) };
}
