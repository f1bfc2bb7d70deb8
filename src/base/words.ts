/** Which English the screens speak. */
export type Language = 'british' | 'american';

/** A trade word in both kinds of English. */
interface TradeWord {
  readonly british: string;
  readonly american: string;
}

/**
 * The one table of trade words that differ between British and American English. Screens and sentences take their
 * words from here, so that no page decides about language by itself. Source: common usage of the trade.
 */
const TRADE_WORDS = {
  bar: { british: 'bar', american: 'measure' },
  bars: { british: 'bars', american: 'measures' },
  barByBar: { british: 'bar by bar', american: 'measure by measure' },
  stave: { british: 'stave', american: 'staff' },
  staves: { british: 'staves', american: 'staves' },
  semibreve: { british: 'semibreve', american: 'whole note' },
  minim: { british: 'minim', american: 'half note' },
  dottedMinim: { british: 'dotted minim', american: 'dotted half note' },
  crotchet: { british: 'crotchet', american: 'quarter note' },
  dottedCrotchet: { british: 'dotted crotchet', american: 'dotted quarter note' },
  quaver: { british: 'quaver', american: 'eighth note' },
  dottedQuaver: { british: 'dotted quaver', american: 'dotted eighth note' },
  semiquaver: { british: 'semiquaver', american: 'sixteenth note' },
  demisemiquaver: { british: 'demisemiquaver', american: 'thirty-second note' },
  upbeat: { british: 'upbeat', american: 'pickup' },
  handsSeparately: { british: 'hands separately', american: 'hands alone' },
  note: { british: 'note', american: 'note' },
  perfectCadence: { british: 'perfect cadence', american: 'authentic cadence' },
  imperfectCadence: { british: 'imperfect cadence', american: 'half cadence' },
  interruptedCadence: { british: 'interrupted cadence', american: 'deceptive cadence' },
  plagalCadence: { british: 'plagal cadence', american: 'plagal cadence' },
  secondaryDominant: { british: 'secondary dominant', american: 'applied dominant' },
  picardyThird: { british: 'Tierce de Picardie', american: 'Picardy third' },
  pedalNote: { british: 'pedal note', american: 'pedal point' },
  practise: { british: 'practise', american: 'practice' },
} as const satisfies Record<string, TradeWord>;

/** Name of an entry in the table of trade words. */
export type TradeWordName = keyof typeof TRADE_WORDS;

/** Looks a trade word up, in British English unless told otherwise. */
export function word(name: TradeWordName, language: Language = 'british'): string {
  return TRADE_WORDS[name][language];
}

/** The words of the table in both kinds of English, the longest first, so that "dotted crotchet" goes before "crotchet". */
const LONGEST_FIRST = Object.values(TRADE_WORDS)
  .flatMap(({ british, american }) => [{ found: british, american }, { found: american, american }])
  .toSorted((a, b) => b.found.length - a.found.length);

/** Any of them in a sentence, with the article before it and the s behind it; "bar line" is the same in both. */
const MENTIONED = new RegExp(String.raw`\b(?:(an?) )?(${LONGEST_FIRST.map(({ found }) => found).join('|')})(s?)\b(?! lines?\b)`, 'gi');

/**
 * A sentence with its trade words in the language asked for, article and capital too: "An upbeat and two bars" becomes
 * "A pickup and two measures", and "a eighth note", put together from the table, gets its article. Only for British
 * sentences of the program: what a person wrote stays as it is.
 */
export function spokenIn(text: string, language: Language): string {
  if (language === 'british') return text;
  return text.replace(MENTIONED, (_whole, article: string | undefined, found: string, plural: string) => {
    const said = LONGEST_FIRST.find((entry) => entry.found.toLowerCase() === found.toLowerCase())?.american ?? found;
    const known = `${/^[A-Z]/.test(found) ? sentenceCase(said) : said}${plural}`;
    if (article === undefined) return known;
    const an = /^[aeiou]/i.test(said) ? 'an' : 'a';
    return `${/^A/.test(article) ? sentenceCase(an) : an} ${known}`;
  });
}

/** Every name in the table, for pages and tests that walk through it. */
export function tradeWordNames(): readonly string[] {
  return Object.keys(TRADE_WORDS);
}

/** Small numbers as they are written in a sentence: up to twelve in words, beyond in figures. */
const NUMBERS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];

/** A count for a sentence: "two", "twelve", "13". */
export function countInWords(count: number): string {
  return NUMBERS[count] ?? String(count);
}

/** How often: "once", "twice", "three times". */
export function timesInWords(count: number): string {
  if (count === 1) return 'once';
  return count === 2 ? 'twice' : `${countInWords(count)} times`;
}

/** Which one in a row: "first", "second", … "twelfth", "13th". */
export function ordinalInWords(position: number): string {
  const words = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth', 'eleventh', 'twelfth'];
  return words[position - 1] ?? `${position}${ordinalEnding(position)}`;
}

/** A list for a sentence: "A", "A and B", "A, B and C". */
export function listInWords(items: readonly string[]): string {
  const last = items[items.length - 1];
  if (last === undefined || items.length === 1) return last ?? '';
  return `${items.slice(0, -1).join(', ')} and ${last}`;
}

/** First letter made a capital, for the start of a sentence. */
export function sentenceCase(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** "st", "nd", "rd" or "th" of a numeral; 11-13 always take "th". */
function ordinalEnding(position: number): string {
  const tens = position % 100;
  if (tens >= 11 && tens <= 13) return 'th';
  return ['th', 'st', 'nd', 'rd'][position % 10] ?? 'th';
}
