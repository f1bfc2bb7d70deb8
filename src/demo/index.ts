export { demoFiles, type DemoFile } from './files.js';
export { makeTake } from './record.js';
export { facts, pieces, takes, TEACHER, TOWN } from './room.js';
export type { Bars, PieceFacts, PlannedCadence, PlannedChord, PlannedKey, PlannedPedal, PlannedPitfall, PlannedSection } from './facts.js';
export type { Piece, WrittenBar } from './piece.js';
export type { Fault, TakePlan } from './plan.js';
export type { Take, TakeNote } from './take.js';
