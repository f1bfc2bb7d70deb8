/** What was wrong with something that came from outside: one code a kind of fault. */
export type InputErrorCode =
  | 'empty'
  | 'not-a-score'
  | 'not-a-recording'
  | 'not-well-formed'
  | 'bad-value'
  | 'too-large'
  | 'unsupported'
  | 'no-notes'
  | 'no-such-part'
  | 'not-found'
  | 'wrong-piece'
  | 'not-saved';

/** Where in the input it was: a line of a text file, a bar, a part, a byte. All optional. */
export interface InputPlace {
  /** Name of the file, without its folder. */
  readonly file?: string;
  /** Printed number of the bar. */
  readonly bar?: string;
  /** Line of a text file, from 1. */
  readonly line?: number;
  /** Offset in a binary file, from 0. */
  readonly byte?: number;
}

/**
 * The one error for bad data from outside: a code for programs, a place, and a sentence for people.
 * It never carries file content or a pupil's name. Our own misuse throws `RangeError` or `TypeError` instead.
 */
export class InputError extends Error {
  readonly code: InputErrorCode;
  readonly place: InputPlace;

  /**
   * @param code kind of fault
   * @param sentence what is wrong and what was expected, in words for a teacher, without the place
   * @param place where it is; left out what is not known
   */
  constructor(code: InputErrorCode, sentence: string, place: InputPlace = {}) {
    super(sentence);
    this.name = 'InputError';
    this.code = code;
    this.place = place;
  }

  /** The whole message on one line: file and place first, then the sentence. */
  describe(): string {
    const { file, bar, line, byte } = this.place;
    const spots = [
      file,
      bar === undefined ? undefined : `bar ${bar}`,
      line === undefined ? undefined : `line ${line}`,
      byte === undefined ? undefined : `byte ${byte}`,
    ].filter((spot) => spot !== undefined);
    return spots.length ? `${spots.join(', ')}: ${this.message}` : this.message;
  }

  /** The same error, naming the file it came from. */
  inFile(file: string): InputError {
    return new InputError(this.code, this.message, { ...this.place, file });
  }
}
