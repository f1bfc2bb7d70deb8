export { alignRecording } from './alignRecording.js';
export { alignmentReport } from './report.js';
export type * from './types.js';
