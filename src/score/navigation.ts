/**
 * Signs that bear on the playing order, bar by bar, as the file writes them. Source: MusicXML 4.0 (W3C). What they
 * lead to, `order.ts` works out.
 */
import { InputError } from '../base/index.js';
import { placeOf } from './grid.js';
import { MAX_PLAYS } from './limits.js';
import type { Barline } from './types.js';
import { readWhole } from './values.js';
import { wordsAsSign, type JumpKind, type TargetKind } from './navigationWords.js';
import { child, childrenNamed, childText, type XmlElement } from './xmlTree.js';

/** A jump that a bar asks for at its end. */
export interface Jump {
  readonly kind: JumpKind;
  /** Name of the sign it goes to; '' where the file names none. */
  readonly label: string;
  /** At which times through the bar it holds; null where the file leaves it to the usual rule. */
  readonly timeOnly: readonly number[] | null;
}

/** A sign that a jump may go to. */
export interface Target {
  readonly kind: TargetKind;
  readonly label: string;
  /** True where the sign stands after the last note, so that the next bar is meant. */
  readonly atEnd: boolean;
}

/** How a repeat ends. */
export interface RepeatEnd {
  /** Plays in all; null where the file does not say. */
  readonly times: number | null;
  readonly afterJump: boolean;
}

/** The signs of a bar as they stand in it, before those on its outer edges are given to its neighbours. */
export interface WrittenSigns extends BarSigns {
  /** A repeat start on the right bar line, so that the next bar begins the repeat. */
  readonly nextStarts: boolean;
  /** A repeat end on the left bar line, so that the bar before ends the repeat. */
  readonly previousEnds: RepeatEnd | null;
}

/** Everything in one bar that bears on the playing order. */
export interface BarSigns {
  readonly repeatStart: boolean;
  readonly repeatEnd: RepeatEnd | null;
  /** Numbers of the ending that begins here. */
  readonly endingStart: readonly number[] | null;
  readonly endingStop: boolean;
  readonly jumps: readonly Jump[];
  readonly targets: readonly Target[];
}

/**
 * Reads the signs of one bar of one part (MusicXML 4.0: barlines and `sound`; plain words such as "D.C. al Fine" as
 * a fallback where no `sound` says it).
 * @throws InputError `bad-value` for repeat counts and ending numbers that cannot be
 */
export function readBarSigns(measure: XmlElement): WrittenSigns {
  const endings = childrenNamed(measure, 'barline').flatMap((barline) => childrenNamed(barline, 'ending'));
  const start = endings.find((ending) => ending.attributes['type'] === 'start');
  const jumps = soundsOf(measure).flatMap(jumpsOf);
  const words = wordsOf(measure);
  return {
    ...readRepeats(measure),
    endingStart: start === undefined ? null : readEndingNumbers(start, measure),
    endingStop: endings.some((ending) => ending.attributes['type'] === 'stop' || ending.attributes['type'] === 'discontinue'),
    jumps: [...jumps, ...words.jumps.filter((jump) => !jumps.some((known) => known.kind === jump.kind))],
    targets: [...targetsOf(measure), ...words.targets],
  };
}

/** Repeat signs by the bar line they stand on, which is the right one where the file does not say. */
function readRepeats(measure: XmlElement): Pick<WrittenSigns, 'repeatStart' | 'repeatEnd' | 'nextStarts' | 'previousEnds'> {
  const found = (direction: string, fits: (location: string) => boolean): XmlElement | undefined =>
    childrenNamed(measure, 'barline')
      .filter((barline) => fits(barline.attributes['location'] ?? 'right'))
      .flatMap((barline) => childrenNamed(barline, 'repeat'))
      .find((repeat) => repeat.attributes['direction'] === direction);
  const implied = soundsOf(measure).some((sound) => sound.attributes['forward-repeat'] === 'yes');
  return {
    repeatStart: implied || found('forward', (location) => location !== 'right') !== undefined,
    nextStarts: found('forward', (location) => location === 'right') !== undefined,
    repeatEnd: readRepeatEnd(
      found('backward', (location) => location !== 'left'),
      measure,
    ),
    previousEnds: readRepeatEnd(
      found('backward', (location) => location === 'left'),
      measure,
    ),
  };
}

/** A backward repeat's count of plays and whether it holds after a jump. */
function readRepeatEnd(repeat: XmlElement | undefined, measure: XmlElement): RepeatEnd | null {
  return repeat === undefined ? null : { times: readTimes(repeat, measure), afterJump: repeat.attributes['after-jump'] === 'yes' };
}

/** The barlines of a bar as printed; location is right where the file does not say. */
export function readBarlines(measure: XmlElement): readonly Barline[] {
  return childrenNamed(measure, 'barline').map((barline) => {
    const location = barline.attributes['location'];
    const direction = child(barline, 'repeat')?.attributes['direction'];
    return {
      location: location === 'left' || location === 'middle' ? location : 'right',
      style: childText(barline, 'bar-style') ?? null,
      repeat: direction === 'forward' || direction === 'backward' ? direction : null,
      fermata: child(barline, 'fermata') !== undefined,
    };
  });
}

/** Plays in all, as the file says it. */
function readTimes(repeat: XmlElement, measure: XmlElement): number | null {
  const times = repeat.attributes['times'];
  return times === undefined ? null : readWhole(times, { what: 'How often a repeat is played', min: 1, max: MAX_PLAYS }, placeOf(measure));
}

/** "1", "1, 2", "1.-3." or blank (then the printed text counts; nothing readable gives an empty list). */
function readEndingNumbers(ending: XmlElement, measure: XmlElement): readonly number[] {
  const written = (ending.attributes['number'] ?? '').trim() || ending.text;
  const ranges = written.split(/[\s,.;]+/).flatMap((piece) => {
    const [, first, last] = /^(\d+)(?:-(\d+))?$/.exec(piece) ?? [];
    return first === undefined ? [] : [{ first: Number(first), last: Number(last ?? first) }];
  });
  if (ranges.some(({ first, last }) => first < 1 || last < first || last > MAX_PLAYS)) {
    throw new InputError('bad-value', `The number of an ending cannot be read; expected numbers from 1 to ${MAX_PLAYS}.`, placeOf(measure));
  }
  return ranges.flatMap(({ first, last }) => Array.from({ length: last - first + 1 }, (_, i) => first + i));
}

/** `sound` elements of the bar, inside directions too. */
function soundsOf(measure: XmlElement): readonly XmlElement[] {
  return measure.children.flatMap((element) =>
    element.name === 'sound' ? [element] : element.name === 'direction' ? childrenNamed(element, 'sound') : [],
  );
}

/** Jumps that one `sound` asks for. dacapo says yes or no, fine may be a length, the others name their sign. */
function jumpsOf(sound: XmlElement): readonly Jump[] {
  const only =
    sound.attributes['time-only']
      ?.split(',')
      .map(Number)
      .filter((time) => Number.isInteger(time)) ?? null;
  const { dacapo, dalsegno, tocoda, fine } = sound.attributes;
  const jumps: readonly (Omit<Jump, 'timeOnly'> | null)[] = [
    dacapo === 'yes' ? { kind: 'dacapo', label: '' } : null,
    dalsegno === undefined ? null : { kind: 'dalsegno', label: dalsegno },
    tocoda === undefined ? null : { kind: 'tocoda', label: tocoda },
    fine === undefined || fine === 'no' ? null : { kind: 'fine', label: '' },
  ];
  return jumps.flatMap((jump) => (jump === null ? [] : [{ ...jump, timeOnly: only }]));
}

/** Segno and coda signs of the bar, named by `sound` or by the barline. */
function targetsOf(measure: XmlElement): readonly Target[] {
  return measure.children.flatMap((element, i) => {
    const named =
      element.name === 'barline'
        ? [element]
        : element.name === 'sound'
          ? [element]
          : element.name === 'direction'
            ? childrenNamed(element, 'sound')
            : [];
    const atEnd = element.name !== 'barline' && isAfterLastNote(measure, i);
    return named.flatMap((holder) =>
      (['segno', 'coda'] as const).flatMap((kind) =>
        holder.attributes[kind] === undefined ? [] : [{ kind, label: holder.attributes[kind], atEnd }],
      ),
    );
  });
}

/** True where a note came before and none comes after until the file steps back or the bar ends. */
function isAfterLastNote(measure: XmlElement, at: number): boolean {
  const moves = (element: XmlElement): boolean => element.name === 'note' || element.name === 'forward';
  const next = measure.children.slice(at + 1).find((element) => moves(element) || element.name === 'backup');
  return measure.children.slice(0, at).some(moves) && (next === undefined || next.name === 'backup');
}

/** Jumps and signs told by plain words or printed signs alone. */
function wordsOf(measure: XmlElement): { readonly jumps: readonly Jump[]; readonly targets: readonly Target[] } {
  const jumps: Jump[] = [];
  const targets: Target[] = [];
  measure.children.forEach((element, i) => {
    if (element.name !== 'direction') return;
    for (const sign of childrenNamed(element, 'direction-type')
      .flatMap((type) => type.children)
      .map(wordsAsSign)) {
      if (sign === null) continue;
      if (sign === 'segno' || sign === 'coda') targets.push({ kind: sign, label: '', atEnd: isAfterLastNote(measure, i) });
      else jumps.push({ kind: sign, label: '', timeOnly: null });
    }
  });
  return { jumps, targets };
}
