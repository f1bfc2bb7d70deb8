export { LONGEST_COMMENT } from './comments.js';
export { LONGEST_NAME } from './context.js';
export { dataFolder, type Surroundings } from './dataFolder.js';
export { asDecisions, type Decision, type DecisionScope, type StoredDecision } from './decisions.js';
export { type IncomingFile, type NewPiece } from './pieces.js';
export { type PupilOptions } from './pupils.js';
export { type Filing, type NewRecording } from './recordings.js';
export { openStore, type Store, type StoreOptions } from './store.js';
export {
  type Comment,
  type CommentVersion,
  type FiledRecording,
  type KeptFile,
  type NewComment,
  type Piece,
  type Pronoun,
  type Pupil,
  type StoredRecording,
  type StoredScore,
} from './types.js';
