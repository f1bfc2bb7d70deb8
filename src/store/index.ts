export { type NewArrival } from './arrivals.js';
export { type Archive } from './archive.js';
export { LONGEST_COMMENT } from './comments.js';
export { type Consent } from './consents.js';
export { LONGEST_NAME } from './context.js';
export { dataFolder, type Surroundings } from './dataFolder.js';
export { asDecisions, type Decision, type DecisionScope, type StoredDecision } from './decisions.js';
export { type DemoState } from './demo.js';
export { type ErasableTable } from './erase.js';
export { type KeptGlance } from './glances.js';
export { type LessonSheet } from './lessonSheets.js';
export { type PlanVersion } from './pedalPlans.js';
export { type IncomingFile, type NewPiece } from './pieces.js';
export { type PupilOptions } from './pupils.js';
export { type Filing, type Listing, type NewRecording } from './recordings.js';
export { type Tally } from './tally.js';
export { openStore, type Store, type StoreOptions } from './store.js';
export {
  type Arrival,
  type Comment,
  type CommentVersion,
  type FiledComment,
  type FiledRecording,
  type KeptFile,
  type Lesson,
  type NewComment,
  type Piece,
  type Pronoun,
  type Pupil,
  type StoredRecording,
  type StoredScore,
} from './types.js';
