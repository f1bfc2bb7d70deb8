export type * from './types.js';
export { programVersion } from './contentKey.js';
export { createPipeline, type PipelineOptions } from './createPipeline.js';
export { analyseTogether, readAllTogether, readTogether } from './jobs.js';
export { WorkerFault, type WorkerFaultKind } from './messages.js';
export { readSource } from './readSource.js';
