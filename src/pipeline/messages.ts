/** How jobs and answers cross the thread: errors as plain records, so that their code and place survive. */
import { InputError, type InputErrorCode, type InputPlace } from '../base/index.js';

/** To the worker. */
export interface Request<Job> {
  readonly id: number;
  readonly job: Job;
}

/** From the worker. */
export type Answer<Result> =
  | { readonly id: number; readonly kind: 'done'; readonly value: Result }
  | { readonly id: number; readonly kind: 'input'; readonly code: InputErrorCode; readonly sentence: string; readonly place: InputPlace }
  | { readonly id: number; readonly kind: 'fault'; readonly detail: string };

/** Why a worker gave no result, apart from bad input. */
export type WorkerFaultKind = 'crashed' | 'too-slow' | 'fault' | 'closed';

/** A job that came to nothing without the input being known to be wrong. The detail is for the log, not for people. */
export class WorkerFault extends Error {
  readonly kind: WorkerFaultKind;

  /**
   * @param kind the worker died, was stopped at its time limit, met a fault of the program, or the pool was closed
   * @param detail what is known, for the log
   */
  constructor(kind: WorkerFaultKind, detail: string) {
    super(detail);
    this.name = 'WorkerFault';
    this.kind = kind;
  }
}

/** The answer that tells of an error. */
export function failed(id: number, error: unknown): Answer<never> {
  if (error instanceof InputError) return { id, kind: 'input', code: error.code, sentence: error.message, place: error.place };
  return { id, kind: 'fault', detail: error instanceof Error ? (error.stack ?? error.message) : String(error) };
}

/** The error that an answer tells of; null where it is a result. */
export function errorOf(answer: Answer<unknown>): InputError | WorkerFault | null {
  if (answer.kind === 'done') return null;
  return answer.kind === 'input' ? new InputError(answer.code, answer.sentence, answer.place) : new WorkerFault('fault', answer.detail);
}
