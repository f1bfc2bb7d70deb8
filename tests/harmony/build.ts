/**
 * Small scores for tests of harmony, written by voices and moved to any key along the line of fifths. All music is
 * invented or textbook commonplace.
 */
import { readScore, type Score } from '../../src/score/index.js';

/** Divisions of a crotchet. */
const DIVISIONS = 12;
const STEPS = 'FCGDAEB';
const SEMITONES: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** What a test piece is made from. Voices in the language "C4+E4:2 r:1 G4:1~ G4:1", lengths in crotchets, "~" ties on. The last voice is the left hand's. */
export interface PieceText {
  readonly voices: readonly string[];
  /** Key signature before moving. */
  readonly fifths?: number;
  /** Crotchets a bar, of a metre in crotchets. */
  readonly beats?: number;
  /** Steps along the line of fifths to move everything by. */
  readonly move?: number;
}

/** One voice item. */
interface Item {
  readonly pitches: readonly string[];
  readonly length: number;
  readonly tie: boolean;
}

/** Reads a test piece. */
export function piece({ voices, fifths = 0, beats = 4, move = 0 }: PieceText): Score {
  const parsed = voices.map((voice) => voice.trim().split(/\s+/).map(item));
  const total = Math.max(...parsed.map((items) => items.reduce((sum, { length }) => sum + length, 0)));
  const barCount = Math.ceil(total / beats - 1e-9);
  const measures = Array.from({ length: barCount }, (_, bar) => {
    const contents = parsed.map((items, v) => voiceBar(items, { from: bar * beats, to: (bar + 1) * beats, voice: v + 1, staff: v === voices.length - 1 && voices.length > 1 ? 2 : 1, move }));
    const head = bar === 0 ? `<attributes><divisions>${DIVISIONS}</divisions><key><fifths>${fifths + move}</fifths></key><time><beats>${beats}</beats><beat-type>4</beat-type></time><staves>2</staves></attributes>` : '';
    return `<measure number="${bar + 1}">${head}${contents.join(`<backup><duration>${beats * DIVISIONS}</duration></backup>`)}</measure>`;
  });
  const xml = `<?xml version="1.0"?><score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list><part id="P1">${measures.join('')}</part></score-partwise>`;
  return readScore(new TextEncoder().encode(xml), { fileName: 'made.musicxml' });
}

/** Block chords, one a minim, written "C3 E4 G4 C5; G2 …": bass to the left hand. */
export function chords(text: string, options: Omit<PieceText, 'voices'> & { readonly length?: number } = {}): Score {
  const list = text.split(';').map((chord) => chord.trim().split(/\s+/));
  const length = options.length ?? 2;
  const right = list.map(([, ...upper]) => `${upper.join('+')}:${length}`).join(' ');
  const left = list.map(([bass]) => `${bass ?? ''}:${length}`).join(' ');
  return piece({ ...options, voices: [right, left] });
}

/** Moves a pitch along the line of fifths, to the nearest octave. */
export function moved(name: string, by: number): { readonly step: string; readonly alter: number; readonly octave: number; readonly midi: number } {
  const match = /^([A-G])(#*|b*)(\d)$/.exec(name);
  if (match === null) throw new TypeError(`No pitch name: ${name}`);
  const [, step = 'C', signs = '', octave = '4'] = match;
  const alter = signs.startsWith('b') ? -signs.length : signs.length;
  const place = STEPS.indexOf(step) + 7 * alter + by;
  const newStep = STEPS.charAt(((place % 7) + 7) % 7);
  const newAlter = Math.floor(place / 7);
  const semitones = ((((7 * by) % 12) + 18) % 12) - 6;
  const midi = 12 * (Number(octave) + 1) + (SEMITONES[step] ?? 0) + alter + semitones;
  return { step: newStep, alter: newAlter, octave: (midi - newAlter - (SEMITONES[newStep] ?? 0)) / 12 - 1, midi };
}

function item(text: string): Item {
  const [pitches = '', length = '1'] = text.split(':');
  return { pitches: pitches === 'r' ? [] : pitches.split('+'), length: Number(length.replace('~', '')), tie: length.endsWith('~') };
}

/** The notes of one voice in one bar; no note crosses a bar line. */
function voiceBar(items: readonly Item[], at: { readonly from: number; readonly to: number; readonly voice: number; readonly staff: number; readonly move: number }): string {
  let time = 0;
  let written = 0;
  const notes: string[] = [];
  items.forEach((entry, i) => {
    if (time >= at.from - 1e-9 && time < at.to - 1e-9) {
      written += entry.length;
      notes.push(entryXml(entry, items[i - 1]?.tie === true, at));
    }
    time += entry.length;
  });
  const gap = at.to - at.from - written;
  return notes.join('') + (gap > 1e-9 ? `<forward><duration>${Math.round(gap * DIVISIONS)}</duration></forward>` : '');
}

function entryXml({ pitches, length, tie }: Item, tied: boolean, { voice, staff, move }: { readonly voice: number; readonly staff: number; readonly move: number }): string {
  const tail = `<duration>${Math.round(length * DIVISIONS)}</duration>${tied ? '<tie type="stop"/>' : ''}${tie ? '<tie type="start"/>' : ''}<voice>${voice}</voice><staff>${staff}</staff></note>`;
  if (pitches.length === 0) return `<note><rest/>${tail}`;
  return pitches
    .map((name, i) => {
      const { step, alter, octave } = moved(name, move);
      return `<note>${i > 0 ? '<chord/>' : ''}<pitch><step>${step}</step><alter>${alter}</alter><octave>${octave}</octave></pitch>${tail}`;
    })
    .join('');
}
