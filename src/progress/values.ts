/** The measured values that a change is held against, by where they were measured: written notes or bars of the last tries. */
import type { Measured } from '../base/index.js';
import type { BarFacts, NoteHolding, PedalChange } from '../measure/index.js';
import type { Values } from './scatter.js';
import type { Side } from './sides.js';

/** Deviation from the local pulse, ms, by occurrence. */
export function onsetValues({ input: { measures }, pairs }: Side): Values {
  return known(pairs, (pair) => valueOf(measures.onsets[pair]?.deviationMs));
}

/** Share of the written length that the key was down, by occurrence. */
export function keyShares(side: Side): Values {
  return shares(side, ({ keyS, writtenS }) => keyS / writtenS);
}

/** Share of the written length that the note sounded, by occurrence. */
export function soundShares(side: Side): Values {
  return shares(side, ({ soundS, writtenS }) => soundS / writtenS);
}

/** A share of the written length, by occurrence. */
function shares({ input: { measures }, pairs }: Side, share: (length: LengthOf) => number): Values {
  return known(pairs, (pair) => {
    const length = valueOf(measures.holding.notes[pair]?.length);
    return length === undefined || length.writtenS <= 0 ? undefined : share(length);
  });
}

/** Lengths of one note. */
type LengthOf = Extract<NoteHolding['length'], { readonly measured: true }>['value'];

/** Velocity units over what surrounds a note in its hand, by occurrence. */
export function overValues({ input: { measures: { levels } }, pairs }: Side): Values {
  return known(pairs, (pair) => (levels.measured ? valueOf(levels.value.notes[pair]?.over) : undefined));
}

/** Velocity units of the tune over its accompaniment, by bar and pass. */
export function tuneOverValues({ input: { measures: { levels } }, visits }: Side): Values {
  return known(visits, (visit) => (levels.measured ? valueOf(levels.value.bars[visit]?.tuneOver) : undefined));
}

/** Natural logarithm of the tempo, by bar and pass: differences are shares. */
export function tempoValues({ input: { measures }, visits }: Side): Values {
  return known(visits, (visit) => {
    const tempo = valueOf(measures.pulse.bars[visit]?.tempo);
    return tempo === undefined ? undefined : Math.log(tempo);
  });
}

/** Share of the time that the foot is down, by bar and pass. */
export function footShares({ input: { measures }, visits }: Side): Values {
  return known(visits, (visit) => measures.pedal.bars[visit]?.downShare);
}

/** Changes of harmony in the last tries, by the unfolded tick of the change. */
export function footMoves({ input: { score, measures }, visits }: Side): ReadonlyMap<number, PedalChange> {
  const kept = new Set([...visits.values()].map((index) => stretchAndVisit(measures.bars[index])));
  const own = measures.pedal.changes.filter((change) => score.order[change.visitIndex] !== undefined && kept.has(stretchAndVisit(change)));
  return new Map(own.map((change) => [change.tick, change]));
}

/** A visit in its stretch. */
function stretchAndVisit(at: Pick<BarFacts, 'stretch' | 'visitIndex'> | undefined): string {
  return `${at?.stretch}:${at?.visitIndex}`;
}

/** The values that are known. */
function known<Key extends number | string>(places: ReadonlyMap<Key, number>, read: (index: number) => number | undefined): ReadonlyMap<Key, number> {
  return new Map([...places].flatMap(([place, index]) => {
    const value = read(index);
    return value === undefined ? [] : [[place, value] as const];
  }));
}

/** A measured value, or none. */
function valueOf<T>(value: Measured<T> | undefined): T | undefined {
  return value?.measured === true ? value.value : undefined;
}
