/**
 * Question: in which order are the bars played?
 * Method: walk through the bars as a player would, with a finger on the last repeat sign, and write down every bar
 * that is played. Each jump is taken a limited number of times, so that the walk always ends.
 */
import { InputError } from '../base/index.js';
import { endingBlocks, type EndingBlock } from './endings.js';
import { MAX_VISITS } from './limits.js';
import type { BarSigns, Jump, Target } from './navigation.js';
import type { Bar, BarVisit } from './types.js';

/** One step of the playing order. */
export interface PlayedBar {
  readonly barIndex: number;
  /** Which time through this bar, from 1. */
  readonly pass: number;
}

/** Plays of a repeat without further word. Common practice; the standard names no default. */
const USUAL_PLAYS = 2;

/**
 * The playing order with repeats written out. Rules (MusicXML 4.0, W3C, unless said otherwise):
 * - A repeat end goes back to the last repeat start, or to the bar after the last finished repeat, or to the beginning.
 *   It is played twice, or `times` times; with endings, as often as the highest ending says.
 * - Da capo and dal segno jump once, after the repeats of their bar are done; `time-only` names the times instead.
 * - After such a jump, repeats in bars played before are not taken (common practice) unless `after-jump` says so, and
 *   the last ending is played. "To coda" and "fine" hold only after a jump; in a piece without jumps "to coda" holds
 *   the second time through.
 * @throws InputError `too-large` where the written-out piece has more than MAX_VISITS bars
 */
export function playingOrder(signs: readonly BarSigns[]): readonly PlayedBar[] {
  const walk = new Walk(withPrintedCodas(signs));
  while (walk.playNext());
  return walk.played;
}

/** The playing order with the moment at which each bar begins. */
export function layOrder(steps: readonly PlayedBar[], bars: readonly Bar[]): readonly BarVisit[] {
  let startTick = 0;
  return steps.map((step, index) => {
    const visit = { ...step, index, startTick };
    startTick += bars[step.barIndex]?.lengthTicks ?? 0;
    return visit;
  });
}

/**
 * Where a file only prints coda signs and names no "to coda", the first of two signs is the place to leave from and
 * the second the coda itself (common practice).
 */
function withPrintedCodas(signs: readonly BarSigns[]): readonly BarSigns[] {
  const places = signs.flatMap((bar, i) => (bar.targets.some((target) => target.kind === 'coda') ? [i] : []));
  const leaves = signs.some((bar) => bar.jumps.some((jump) => jump.kind === 'tocoda'));
  if (leaves || places.length < 2) return signs;
  return signs.map((bar, i) =>
    i !== places[0]
      ? bar
      : {
          ...bar,
          targets: bar.targets.filter((target) => target.kind !== 'coda'),
          jumps: [...bar.jumps, { kind: 'tocoda', label: '', timeOnly: null }],
        },
  );
}

/** The state of one walk through the bars. */
class Walk {
  readonly played: PlayedBar[] = [];
  readonly #signs: readonly BarSigns[];
  readonly #blockAt: ReadonlyMap<number, EndingBlock>;
  readonly #passes = new Map<number, number>();
  readonly #jumpsTaken = new Set<number>();
  readonly #hasJumps: boolean;
  #next = 0;
  #repeatStart = 0;
  /** Which time through the current repeat, from 1. */
  #round = 1;
  /** Furthest bar that had been played when a da capo or dal segno jumped; -1 before any jump. */
  #replayedUntil = -1;
  #jumped = false;

  constructor(signs: readonly BarSigns[]) {
    this.#signs = signs;
    this.#blockAt = new Map(
      endingBlocks(signs).flatMap((block) =>
        Array.from({ length: block.last - block.first + 1 }, (_, i) => [block.first + i, block] as const),
      ),
    );
    this.#hasJumps = signs.some((bar) => bar.jumps.some((jump) => jump.kind === 'dacapo' || jump.kind === 'dalsegno'));
  }

  /** Plays one bar, or skips one ending; false once the piece is over. */
  playNext(): boolean {
    const bar = this.#next;
    const signs = this.#signs[bar];
    if (signs === undefined) return false;
    if (signs.repeatStart && bar !== this.#repeatStart) this.#beginRepeat(bar);
    const block = this.#blockAt.get(bar);
    if (block !== undefined && !this.#isOn(block)) {
      this.#leave(block);
      return true;
    }
    const pass = (this.#passes.get(bar) ?? 0) + 1;
    this.#passes.set(bar, pass);
    this.played.push({ barIndex: bar, pass });
    if (this.played.length > MAX_VISITS)
      throw new InputError('too-large', `With its repeats written out this piece has more than ${MAX_VISITS} bars.`);
    return this.#goOn(signs, { bar, pass, block });
  }

  /** Decides what follows a bar; false where the piece ends. */
  #goOn(signs: BarSigns, here: { readonly bar: number; readonly pass: number; readonly block: EndingBlock | undefined }): boolean {
    const due = signs.jumps.filter((jump) => this.#isDue(jump, here.pass));
    if (due.some((jump) => jump.kind === 'fine')) return false;
    const leaving = due.find((jump) => jump.kind === 'tocoda');
    if (leaving !== undefined && this.#jumpToCoda(leaving, here.bar)) return true;
    const back = due.find((jump) => jump.kind === 'dacapo' || jump.kind === 'dalsegno');
    const named = back !== undefined && back.timeOnly !== null;
    if (!named && this.#repeats(signs, here)) return true;
    if (back !== undefined && (named || !this.#jumpsTaken.has(here.bar))) {
      this.#jumpBack(back, here.bar);
      return true;
    }
    this.#next = here.bar + 1;
    if (here.block?.last === here.bar && !this.#goesOnWithEnding(here.block)) this.#beginRepeat(this.#next);
    return true;
  }

  /** Goes back to the repeat start where another play is due. */
  #repeats(signs: BarSigns, here: { readonly bar: number; readonly block: EndingBlock | undefined }): boolean {
    if (signs.repeatEnd === null) return false;
    const plays =
      here.block === undefined
        ? (signs.repeatEnd.times ?? USUAL_PLAYS)
        : Math.max(here.block.highest, here.block.numbers.includes(1) ? USUAL_PLAYS : 0);
    const taken = here.bar > this.#replayedUntil || signs.repeatEnd.afterJump;
    if (taken && this.#round < plays) {
      this.#round += 1;
      this.#next = this.#repeatStart;
      return true;
    }
    if (here.block === undefined || !this.#goesOnWithEnding(here.block)) this.#beginRepeat(here.bar + 1);
    return false;
  }

  /** True where this time through plays the ending: its own number, or after a jump back the last one. */
  #isOn(block: EndingBlock): boolean {
    const afterJump = this.#signs[block.last]?.repeatEnd?.afterJump === true;
    const replayed = block.first <= this.#replayedUntil && !afterJump;
    return block.numbers.includes(replayed ? block.highest : this.#round) && !(replayed && this.#isLoneFirst(block));
  }

  /** A first ending with no second one: the bars after it take the second one's place. */
  #isLoneFirst(block: EndingBlock): boolean {
    const closing = this.#signs[block.last];
    return block.highest === 1 && closing !== undefined && closing.repeatEnd !== null;
  }

  /** Skips an ending; where none follows, the repeat is over. */
  #leave(block: EndingBlock): void {
    this.#next = block.last + 1;
    if (!this.#goesOnWithEnding(block)) this.#beginRepeat(this.#next);
  }

  /** True where a bracket of the same row follows at once. */
  #goesOnWithEnding(block: EndingBlock): boolean {
    const next = this.#blockAt.get(block.last + 1);
    return next !== undefined && Math.min(...next.numbers) > Math.min(...block.numbers);
  }

  /** From here on a repeat end goes back to this bar, counting from the first time again. */
  #beginRepeat(bar: number): void {
    this.#repeatStart = bar;
    this.#round = 1;
  }

  /** Whether a jump holds at this pass: at the times it names, else by the usual rules above. */
  #isDue(jump: Jump, pass: number): boolean {
    if (jump.timeOnly !== null) return jump.timeOnly.includes(pass);
    if (jump.kind === 'fine') return this.#jumped;
    if (jump.kind === 'tocoda') return this.#jumped || (!this.#hasJumps && pass === 2);
    return true;
  }

  /** Goes to the coda of that name, else to the next one of any name; false where none follows. */
  #jumpToCoda(jump: Jump, bar: number): boolean {
    const coda = this.#find('coda', jump.label, (place) => place > bar) ?? this.#find('coda', '', (place) => place > bar);
    if (coda === null) return false;
    this.#next = coda;
    this.#beginRepeat(coda);
    return true;
  }

  /** Goes to the beginning or to the segno, from which on inner repeats are no longer taken. */
  #jumpBack(jump: Jump, bar: number): void {
    this.#jumpsTaken.add(bar);
    this.#jumped = true;
    this.#replayedUntil = Math.max(this.#replayedUntil, bar);
    const segno = jump.kind === 'dacapo' ? 0 : (this.#findLast(jump.label, bar) ?? 0);
    this.#next = segno;
    this.#beginRepeat(segno);
  }

  /** The last segno of that name at or before the jump, else the last one of any name. */
  #findLast(label: string, bar: number): number | null {
    const before = (place: number): boolean => place <= bar;
    return this.#find('segno', label, before, true) ?? this.#find('segno', '', before, true);
  }

  /** The bar a sign stands for; '' fits every label. */
  #find(kind: Target['kind'], label: string, fits: (bar: number) => boolean, last = false): number | null {
    const places = this.#signs.flatMap((bar, i) =>
      bar.targets
        .filter((target) => target.kind === kind && (label === '' || target.label === label))
        .map((target) => (target.atEnd ? i + 1 : i)),
    );
    return (last ? places.findLast(fits) : places.find(fits)) ?? null;
  }
}
