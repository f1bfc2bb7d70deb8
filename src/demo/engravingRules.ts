/**
 * What a copyist decides and a composer does not write: beams, stem directions, accidentals. Rules of common practice:
 * beams join the short notes of one beat; a beamed group shares the stem of its note farthest from the middle line;
 * an accidental holds to the bar line, and a note that loses one in the next bar is told so.
 */
import type { WrittenEvent, WrittenPitch } from './notation.js';

/** State of one beam at one note. */
export type Beam = 'begin' | 'continue' | 'end' | 'backward hook' | 'forward hook';

/** Copyist's marks of one event. */
export interface Copy {
  readonly stem: 'up' | 'down';
  /** First (quaver) beam, then second (semiquaver) beam; empty for a note with flag or without. */
  readonly beams: readonly Beam[];
}

/** Diatonic place of the middle line: B4 in the treble, D3 in the bass clef; C0 is 0. */
export const MIDDLE_LINE = { treble: 34, bass: 22 } as const;

/** Step names from C upwards. */
export const STEPS = 'CDEFGAB';
/** A crotchet in divisions: what is shorter carries beams. */
const CROTCHET = 4;

/** Beams and stems of one hand in one bar; `beat` is the length in divisions that a beam may join. */
export function copyHand(events: readonly WrittenEvent[], beat: number, middleLine: number): readonly Copy[] {
  return beamGroups(events, beat).flatMap((group) => {
    const stem = stemOf(group, middleLine);
    return group.map((event, i) => ({ stem, beams: group.length > 1 ? beamsAt(group, i, event) : [] }));
  });
}

/** Splits a bar into the groups that beams join; every event is in one group. */
export function beamGroups(events: readonly WrittenEvent[], beat: number): readonly (readonly WrittenEvent[])[] {
  const groups: WrittenEvent[][] = [];
  for (const event of events) {
    const before = groups.at(-1)?.at(-1);
    if (before && joins(before, event, beat)) groups.at(-1)?.push(event);
    else groups.push([event]);
  }
  return groups;
}

/** Remembers accidentals along one stave, bar by bar. */
export interface AccidentalMemory {
  /** Name of the accidental to print before this note, and whether it only reminds; null for none. */
  readonly next: (pitch: WrittenPitch) => { readonly name: string; readonly reminds: boolean } | null;
  readonly barLine: () => void;
}

/** An accidental memory under a key signature (`fifths` sharps, or flats where negative). */
export function accidentalMemory(fifths: number): AccidentalMemory {
  let bar = new Map<string, number>();
  let before = new Map<string, number>();
  return {
    next(pitch) {
      const place = `${pitch.step}${String(pitch.octave)}`;
      const inKey = alterInKey(pitch.step, fifths);
      const needed = (bar.get(place) ?? inKey) !== pitch.alter;
      const reminds = !bar.has(place) && (before.get(place) ?? inKey) !== pitch.alter;
      bar.set(place, pitch.alter);
      return needed || reminds ? { name: accidentalName(pitch.alter), reminds: !needed } : null;
    },
    barLine() {
      before = bar;
      bar = new Map();
    },
  };
}

/** Alteration that a key signature gives a step. */
export function alterInKey(step: string, fifths: number): number {
  const order = 'FCGDAEB';
  if (fifths > 0) return order.slice(0, fifths).includes(step) ? 1 : 0;
  return fifths < 0 && order.slice(7 + fifths).includes(step) ? -1 : 0;
}

/** MusicXML's word for an alteration of at most a semitone. */
function accidentalName(alter: number): string {
  return alter === 0 ? 'natural' : alter > 0 ? 'sharp' : 'flat';
}

/** Whether a beam may run from one event to the next: both short, both sounding, in one beat. */
function joins(before: WrittenEvent, event: WrittenEvent, beat: number): boolean {
  const short = [before, event].every((each) => each.length < CROTCHET && each.pitches.length > 0);
  return short && Math.floor(before.at / beat) === Math.floor(event.at / beat);
}

/** The quaver beam's state and, for a semiquaver, that of the second beam: a hook where no semiquaver stands beside it. */
function beamsAt(group: readonly WrittenEvent[], i: number, event: WrittenEvent): readonly Beam[] {
  const first = i === 0 ? 'begin' : i === group.length - 1 ? 'end' : 'continue';
  if (event.type !== '16th') return [first];
  const before = group[i - 1]?.type === '16th';
  const after = group[i + 1]?.type === '16th';
  if (!before && !after) return [first, i === 0 ? 'forward hook' : 'backward hook'];
  return [first, !before ? 'begin' : after ? 'continue' : 'end'];
}

/** Down where the farthest note lies on or above the middle line or both sides are equal, else up. */
function stemOf(group: readonly WrittenEvent[], middleLine: number): 'up' | 'down' {
  const places = group.flatMap((event) => event.pitches).map((pitch) => pitch.octave * 7 + STEPS.indexOf(pitch.step));
  const above = Math.max(...places) - middleLine;
  const below = middleLine - Math.min(...places);
  return below > above ? 'up' : 'down';
}
