/**
 * Builders of small MusicXML files for tests. All music in these tests is invented for them.
 * Lengths are divisions; one crotchet has two of them unless a test says otherwise.
 */

/** Divisions of a crotchet in the built scores. */
export const DIVISIONS = 2;

/** What a built note may carry besides its pitch and length. */
export interface NoteOptions {
  readonly id?: string;
  readonly voice?: string;
  readonly staff?: number;
  readonly chord?: boolean;
  /** Children of `note` right after its pitch: ties, dots, time-modification … */
  readonly inside?: string;
  /** Children of `notations`. */
  readonly signs?: string;
  /** Attributes of the `note` tag. */
  readonly attributes?: string;
}

/** A note such as `note('F#4', 2)`, "#" and "b" as often as needed. */
export function note(name: string, length: number, options: NoteOptions = {}): string {
  return tagged(pitch(name), `<duration>${length}</duration>`, options);
}

/** A grace note, which has no duration. */
export function grace(name: string, options: NoteOptions = {}, slash = false): string {
  return tagged(`<grace${slash ? ' slash="yes"' : ''}/>${options.chord ? '<chord/>' : ''}${pitch(name)}`, '', { ...options, chord: false });
}

/** A cue note, which has a duration and is silent. */
export function cue(name: string, length: number, options: NoteOptions = {}): string {
  return tagged(`<cue/>${pitch(name)}`, `<duration>${length}</duration>`, options);
}

/** A rest. */
export function rest(length: number, options: NoteOptions = {}): string {
  return tagged('<rest/>', `<duration>${length}</duration>`, options);
}

export const tieStart = '<tie type="start"/>';
export const tieStop = '<tie type="stop"/>';

/** A step back in time. */
export function backup(length: number): string {
  return `<backup><duration>${length}</duration></backup>`;
}

/** A step on in time. */
export function forward(length: number): string {
  return `<forward><duration>${length}</duration></forward>`;
}

/** A direction with the given `direction-type` content and what follows it (offset, staff, sound). */
export function direction(types: string, after = ''): string {
  return `<direction><direction-type>${types}</direction-type>${after}</direction>`;
}

/** A barline. */
export function barline(content: string, location: 'left' | 'right' = 'right'): string {
  return `<barline location="${location}">${content}</barline>`;
}

export const repeatStart = barline('<repeat direction="forward"/>', 'left');
export const repeatEnd = barline('<repeat direction="backward"/>');

/** A bar. The number follows from its place where left out. */
export interface BuiltBar {
  readonly content: string;
  readonly attributes?: string;
}

/** Attributes of a first bar: divisions, C major, and a time signature. */
export function head(time = '4/4', more = '', divisions: number | string = DIVISIONS): string {
  const [beats, beatType] = time.split('/');
  return `<attributes><divisions>${divisions}</divisions><key><fifths>0</fifths></key><time><beats>${beats}</beats><beat-type>${beatType}</beat-type></time>${more}</attributes>`;
}

/** The `measure` elements of a part; the first bar gets the usual head unless it brings attributes of its own. */
export function bars(contents: readonly (string | BuiltBar)[], time = '4/4'): string {
  return contents
    .map((bar, i) => {
      const { content, attributes } = typeof bar === 'string' ? { content: bar, attributes: undefined } : bar;
      const withHead = i === 0 && !content.includes('<divisions>') ? head(time) + content : content;
      return `<measure ${attributes ?? `number="${i + 1}"`}>${withHead}</measure>`;
    })
    .join('\n');
}

/** A part of a built score. */
export interface BuiltPart {
  readonly id: string;
  readonly name: string;
  readonly measures: string;
}

/** The text of a partwise score of one or more parts. */
export function partwise(parts: string | readonly BuiltPart[], before = ''): string {
  const list = typeof parts === 'string' ? [{ id: 'P1', name: 'Piano', measures: parts }] : parts;
  return `<?xml version="1.0" encoding="UTF-8"?>
<score-partwise version="4.0">${before}
<part-list>${list.map((part) => `<score-part id="${part.id}"><part-name>${part.name}</part-name></score-part>`).join('')}</part-list>
${list.map((part) => `<part id="${part.id}">\n${part.measures}\n</part>`).join('\n')}
</score-partwise>`;
}

/** Bytes of a text in UTF-8. */
export function utf8(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

function tagged(first: string, duration: string, options: NoteOptions): string {
  const { id, voice = '1', staff, chord = false, inside = '', signs = '', attributes = '' } = options;
  const idAttribute = id === undefined ? '' : ` id="${id}"`;
  return (
    `<note${idAttribute}${attributes === '' ? '' : ` ${attributes}`}>${chord ? '<chord/>' : ''}${first}${duration}${inside.startsWith('<tie ') ? inside : ''}<voice>${voice}</voice>` +
    `${inside.startsWith('<tie ') ? '' : inside}${staff === undefined ? '' : `<staff>${staff}</staff>`}${signs === '' ? '' : `<notations>${signs}</notations>`}</note>`
  );
}

function pitch(name: string): string {
  const match = /^([A-G])(#*|b*)(\d)$/.exec(name);
  if (match === null) throw new TypeError(`No pitch name: ${name}`);
  const alter = (match[2] ?? '').startsWith('b') ? -(match[2] ?? '').length : (match[2] ?? '').length;
  return `<pitch><step>${match[1]}</step>${alter === 0 ? '' : `<alter>${alter}</alter>`}<octave>${match[3]}</octave></pitch>`;
}
