/** A lesson sheet's form as it comes in. */
import type { Request } from 'express';
import { InputError } from '../../base/index.js';
import type { Score } from '../../score/index.js';
import { fieldOf } from '../commentForm.js';
import { LONGEST, MOST_THINGS, type SheetBody, type SheetThing } from './sheetBody.js';

/** Bytes of one character in a form, at most: three in UTF-8, each as "%E3". */
const BYTES_A_CHARACTER = 9;

/** Largest form of a sheet, bytes: twice what its fields hold, so that a text that is too long is answered in words. */
export const LARGEST_SHEET_FORM_BYTES = 2 * BYTES_A_CHARACTER * (LONGEST.well + LONGEST.next + MOST_THINGS * (LONGEST.words + LONGEST.practise + 2 * LONGEST.bar) + 400);

/**
 * The sheet that a form holds. Things without any word are left out.
 * @throws InputError code `too-large` for a text that has no room on one side, `bad-value` for a bar that the score does not have
 */
export function bodyFrom(request: Request, { bars }: Pick<Score, 'bars'>): SheetBody {
  const text = (name: string, most: number): string => {
    const value = fieldOf(request, name).replace(/\r\n?/g, '\n').trim();
    if (value.length > most) throw new InputError('too-large', `There is room for ${most} characters there, and the text has ${value.length}. Shorten it, so that the sheet stays one side.`);
    return value;
  };
  const bar = (name: string): string => {
    const number = text(name, LONGEST.bar);
    if (number !== '' && !bars.some((one) => one.number === number)) throw new InputError('bad-value', `The score has no bar ${number}.`);
    return number;
  };
  const things = Array.from({ length: MOST_THINGS }, (_, i): SheetThing => {
    const [from, to] = [bar(`from${i}`), bar(`to${i}`)];
    return { bars: [from === '' ? to : from, to === '' ? from : to], words: text(`words${i}`, LONGEST.words), practise: text(`practise${i}`, LONGEST.practise) };
  });
  return { well: text('well', LONGEST.well), things: things.filter(({ words, practise }) => words + practise !== ''), next: text('next', LONGEST.next) };
}
