/** Numbers from outside. Checked once, here; inside, they are trusted. */
import { InputError, type InputPlace } from '../base/index.js';

/** What a number in the file may be, and how to name it in an error. */
export interface NumberRule {
  /** What it is, as the subject of a sentence: "The number of staves". */
  readonly what: string;
  readonly min: number;
  readonly max: number;
}

/**
 * A whole number written in the file. "4.0" counts as whole.
 * @throws InputError `bad-value` where it is missing, no whole number, or outside the rule (ends included)
 */
export function readWhole(text: string | undefined, rule: NumberRule, place: InputPlace): number {
  const value = readDecimal(text, rule, place);
  if (!Number.isInteger(value)) throw badValue(rule, place, 'a whole number');
  return value;
}

/**
 * A decimal number written in the file.
 * @throws InputError `bad-value` where it is missing, no number, or outside the rule (ends included)
 */
export function readDecimal(text: string | undefined, rule: NumberRule, place: InputPlace): number {
  const value = plainNumber(text);
  if (value === null || value < rule.min || value > rule.max) throw badValue(rule, place, 'a number');
  return value;
}

/** A plain decimal number, or null for anything else (no exponents, no hexadecimal, no blanks). */
export function plainNumber(text: string | undefined): number | null {
  return text !== undefined && /^[+-]?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : null;
}

/** The one error for numbers: what it is, and between which ends it should lie. */
function badValue(rule: NumberRule, place: InputPlace, kind: string): InputError {
  return new InputError('bad-value', `${rule.what} cannot be read; expected ${kind} from ${rule.min} to ${rule.max}.`, place);
}
