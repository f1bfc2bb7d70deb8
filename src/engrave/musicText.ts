/**
 * Music signs inside words (metronome marks, dynamics, accidentals): the engraver sets them from a music font that a
 * page need not carry. Letters and common signs become ordinary text, note values small drawings.
 * Numbers: SMuFL 1.4, ranges "Metronome marks", "Individual notes", "Dynamics", "Standard accidentals".
 */
import { fixed } from './numbers.js';

/** A note value as a metronome mark names it. */
interface NoteValue {
  /** Number of flags; stem-less for the semibreve. */
  readonly flags: number;
  readonly stem: boolean;
  readonly filled: boolean;
}

const SEMIBREVE: NoteValue = { flags: 0, stem: false, filled: false };
const MINIM: NoteValue = { flags: 0, stem: true, filled: false };
const CROTCHET: NoteValue = { flags: 0, stem: true, filled: true };
const QUAVER: NoteValue = { flags: 1, stem: true, filled: true };
const SEMIQUAVER: NoteValue = { flags: 2, stem: true, filled: true };
const DEMISEMIQUAVER: NoteValue = { flags: 3, stem: true, filled: true };

/** Note values: individual notes (E1D0 …) and metronome marks (ECA0 …), stem up. */
const NOTES: ReadonlyMap<number, NoteValue> = new Map([
  [0xe1d2, SEMIBREVE], [0xe1d3, MINIM], [0xe1d5, CROTCHET], [0xe1d7, QUAVER], [0xe1d9, SEMIQUAVER], [0xe1db, DEMISEMIQUAVER],
  [0xeca2, SEMIBREVE], [0xeca3, MINIM], [0xeca5, CROTCHET], [0xeca7, QUAVER], [0xeca9, SEMIQUAVER], [0xecab, DEMISEMIQUAVER],
]);

/** Augmentation dots of both ranges. */
const DOTS: ReadonlySet<number> = new Set([0xe1e7, 0xecb7]);

/** Dynamics as letters and accidentals as common signs. */
const LETTERS: ReadonlyMap<number, string> = new Map([
  [0xe520, 'p'], [0xe521, 'm'], [0xe522, 'f'], [0xe523, 'r'], [0xe524, 's'], [0xe525, 'z'], [0xe526, 'n'], [0xe527, 'pppppp'],
  [0xe528, 'ppppp'], [0xe529, 'pppp'], [0xe52a, 'ppp'], [0xe52b, 'pp'], [0xe52c, 'mp'], [0xe52d, 'mf'], [0xe52e, 'pf'], [0xe52f, 'ff'],
  [0xe530, 'fff'], [0xe531, 'ffff'], [0xe532, 'fffff'], [0xe533, 'ffffff'], [0xe534, 'fp'], [0xe535, 'fz'], [0xe536, 'sf'],
  [0xe537, 'sfp'], [0xe538, 'sfpp'], [0xe539, 'sfz'], [0xe53a, 'sfzp'], [0xe53b, 'sffz'], [0xe53c, 'rf'], [0xe53d, 'rfz'],
  [0xe260, '♭'], [0xe261, '♮'], [0xe262, '♯'], [0xe263, '𝄪'], [0xe264, '𝄫'],
]);

/** Room before a note value, a share of its size: a word space alone lets the head touch the word before. */
const BEFORE_NOTE = 0.16;

/** A drawn sign and the room it takes. */
export interface DrawnSign {
  readonly svg: string;
  readonly advance: number;
}

/** Words for the signs that have them, the rest of the private range left as it is. */
export function lettered(text: string): string {
  return Array.from(text, (letter) => LETTERS.get(letter.codePointAt(0) ?? 0) ?? letter).join('');
}

/** Whether this character is one of the music font's own. */
export function isMusicSign(letter: string): boolean {
  return letter >= '\ue000' && letter <= '\uf8ff';
}

/** Draws a note value or a dot standing on a base line at (x, y), for type of this size; null for other signs. */
export function drawnSign(letter: string, place: { readonly x: number; readonly y: number; readonly size: number }): DrawnSign | null {
  const code = letter.codePointAt(0) ?? 0;
  if (DOTS.has(code)) return dot(place.x, place.y, place.size);
  const value = NOTES.get(code);
  if (value === undefined) return null;
  const lead = BEFORE_NOTE * place.size;
  const { svg, advance } = note(value, { ...place, x: place.x + lead });
  return { svg, advance: lead + advance };
}

/** A dot a little above the base line, as behind a note-head. */
function dot(x: number, y: number, size: number): DrawnSign {
  return { svg: `<circle cx="${fixed(x + 0.04 * size)}" cy="${fixed(y - 0.12 * size)}" r="${fixed(0.055 * size)}" stroke="none"/>`, advance: 0.14 * size };
}

/** Shares of the type size throughout: head .34 wide, stem to .86. */
function note({ flags, stem, filled }: NoteValue, { x, y, size }: { readonly x: number; readonly y: number; readonly size: number }): DrawnSign {
  const at = (dx: number, dy: number): string => `${fixed(x + dx * size)} ${fixed(y - dy * size)}`;
  const look = filled ? 'stroke="none"' : `fill="none" stroke-width="${fixed(0.06 * size)}"`;
  const centre = at(0.19, 0.12).split(' ');
  const head = `<ellipse cx="${centre[0] ?? ''}" cy="${centre[1] ?? ''}" rx="${fixed(0.165 * size)}" ry="${fixed(0.115 * size)}" transform="rotate(-22 ${centre.join(' ')})" ${look}/>`;
  const line = stem ? `<path fill="none" stroke-width="${fixed(0.05 * size)}" d="M${at(0.33, 0.16)} L${at(0.33, 0.86)}"/>` : '';
  const tail = (n: number): string => {
    const top = 0.86 - 0.16 * n;
    return `<path stroke="none" d="M${at(0.33, top)} C${at(0.36, top - 0.2)} ${at(0.58, top - 0.22)} ${at(0.48, top - 0.48)} C${at(0.52, top - 0.3)} ${at(0.42, top - 0.26)} ${at(0.33, top - 0.2)} Z"/>`;
  };
  const tails = Array.from({ length: flags }, (_, n) => tail(n)).join('');
  return { svg: head + line + tails, advance: (flags > 0 ? 0.54 : 0.42) * size };
}
