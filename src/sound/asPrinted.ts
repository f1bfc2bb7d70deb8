/*
 * As printed, at the speed you played: the score along the way that was taken, and nothing of a player's own.
 *
 * Conventions: seconds. Every stretch of the route is played from its first to its last note by the hands that played it, each part under one tempo mark at its
 *   middle tempo as played. Lengths by their marks, levels by the printed ones, the pedal where it is printed. Grace notes just before their note, rolled
 *   chords from below; ornament signs are left out, since what they stand for is a choice.
 * Source: staccato half, staccatissimo a quarter, portato three quarters of the written value (manuals); levels of the marks as in the MusicXML 4.0
 *   examples (p 55 % … of velocity 90).
 * What it does not tell: how it should be played. It is a yardstick for the ear.
 */
import { marksAsked, touchAsked, handOf, type AskedOfHand, type Hand, type MarkedTouch } from '../measure/index.js';
import type { ControlPoint } from '../recording/index.js';
import { visitAtTick, type Occurrence, type ScoreNote } from '../score/index.js';
import { endsBefore, versionOf, type DraftNote } from './draft.js';
import { printedPedal, type PrintedClock } from './printedPedal.js';
import { middleSpeed, stretchPoints, type StretchPoints } from './spanTempo.js';
import type { ClockPoint, SoundInput, Version } from './types.js';

/** Velocities of pppp … ffff: the percentages of the MusicXML 4.0 examples, of 90 (mp 63 … f 90); between pppp 11 and ffff 133 per cent. */
const VELOCITIES = [10, 24, 37, 50, 63, 76, 90, 100, 110, 120] as const;
const MEZZO_FORTE = 5;

/** An accent and a sforzato over the level, velocity units. Our own rule: what the marks' steps make, two and three times. */
const ACCENT = 10;
const SFORZATO = 15;

/** Share of the written value that a key is down; what has no mark is let go a little early, so that it is neither legato nor staccato. */
const SHARES: Readonly<Record<MarkedTouch | 'plain', number>> = { slurred: 1, tenuto: 1, plain: 0.9, portato: 0.75, staccato: 0.5, staccatissimo: 0.25 };

/** Grace notes and the notes of a rolled chord follow one another at this distance, seconds. Our own rule: quick, and heard one by one. */
const QUICK_S = 0.06;

/** The score as printed, along the route. */
export function asPrinted(input: SoundInput): Version {
  const { recording, alignment } = input;
  const asked = { touch: touchAsked(input.score), marks: marksAsked(input.score) };
  const [notes, sustain, clock]: [DraftNote[], ControlPoint[], ClockPoint[]] = [[], [], []];
  stretchPoints(input).forEach((points, stretch) => {
    const [first, last] = [points[0], points.at(-1)];
    const route = alignment.route[stretch];
    const before = clock.at(-1);
    if (first === undefined || last === undefined || route === undefined || (before !== undefined && first.onsetS <= before.playedS)) return;
    const startS = before === undefined ? first.onsetS : before.versionS + first.onsetS - before.playedS;
    const at = printedClock(input, points, { stretch, startS });
    const inside = input.score.occurrences.filter(({ onsetTick, visitIndex, staff }) => onsetTick >= first.tick && onsetTick <= last.tick
      && visitIndex >= route.fromVisit && visitIndex <= route.toVisit && (route.hands === 'both' || (staff <= 1) === (route.hands === 'right')));
    notes.push(...inside.flatMap((written) => printedNote(input, written, { at, asked })));
    sustain.push(...printedPedal(input, { route, at, fromTick: first.tick, toTick: last.tick }));
    clock.push(...points.map(({ tick, onsetS }) => ({ playedS: onsetS, versionS: at(tick) })));
  });
  const endOf = endsBefore(notes);
  const fitted = notes.map((note) => ({ ...note, releaseS: endOf(note, note.releaseS) }));
  const version = versionOf('printed', recording, { notes: fitted, sustain, clock, changes: [{ barIndex: input.measures.bars[0]?.barIndex ?? 0, startS: recording.notes[0]?.onsetS ?? 0, text: 'what is printed would be heard, at the speed of this recording' }] });
  const endS = fitted.reduce((end, { releaseS }) => Math.max(end, releaseS), 0);
  return { ...version, recording: { ...version.recording, sostenuto: [], soft: [], durationS: Math.max(endS, sustain.at(-1)?.timeS ?? 0) } };
}

/** When each tick comes: each visit at the middle speed of its tempo mark. */
function printedClock(input: SoundInput, points: StretchPoints, { stretch, startS }: { readonly stretch: number; readonly startS: number }): PrintedClock {
  const { score } = input;
  const from = points[0]?.tick ?? 0;
  const first = visitAtTick(score, from).index;
  const starts: { readonly tick: number; readonly timeS: number; readonly speed: number }[] = [];
  for (const { index, startTick } of score.order.slice(first)) {
    const before = starts.at(-1);
    const tick = Math.max(from, startTick);
    const timeS = before === undefined ? startS : before.timeS + (tick - before.tick) * before.speed;
    starts.push({ tick, timeS, speed: middleSpeed(input, points, { stretch, visitIndex: index }) });
  }
  return (tick) => {
    const start = starts.findLast((one) => one.tick <= tick) ?? starts[0];
    return start === undefined ? startS : start.timeS + (tick - start.tick) * start.speed;
  };
}

/** What all notes are made from. */
interface Asked {
  readonly at: PrintedClock;
  readonly asked: { readonly touch: ReturnType<typeof touchAsked>; readonly marks: Readonly<Record<Hand, AskedOfHand>> };
}

/** One written note as it is printed. */
function printedNote({ score, alignment }: SoundInput, written: Occurrence, { at, asked }: Asked): readonly DraftNote[] {
  const note = score.notes[written.noteIndex];
  if (note === undefined) return [];
  const touch = asked.touch[written.tied.at(-1) ?? note.index]?.touch ?? 'plain';
  const start = at(written.onsetTick);
  const onsetS = Math.max(0, start + quickS(score.notes, note));
  const lengthS = note.grace === null ? (at(written.endTick) - start) * SHARES[touch] : QUICK_S;
  return [{
    from: null, onsetS, releaseS: onsetS + lengthS, pitch: written.midi + alignment.transposition, velocity: levelOf(note, written.onsetTick, asked.marks[handOf(written)]),
    releaseVelocity: null, hanging: false,
  }];
}

/** How far a grace note comes before its note, and a note of a rolled chord after its beginning, seconds. */
function quickS(notes: readonly ScoreNote[], note: ScoreNote): number {
  if (note.grace !== null) return note.grace.after ? 0 : -QUICK_S * note.grace.before;
  if (note.arpeggio === null) return 0;
  const down = note.arpeggio === 'down';
  const chord = notes.filter((other) => other.onsetTick === note.onsetTick && other.arpeggio !== null);
  return QUICK_S * chord.filter(({ pitch }) => (down ? pitch.midi > note.pitch.midi : pitch.midi < note.pitch.midi)).length;
}

/** The printed level at a tick: the mark in force, a step up or down along a hairpin, accents on top. */
function levelOf(note: ScoreNote, tick: number, { marks, hairpins, sforzati }: AskedOfHand): number {
  if (note.velocity !== null) return note.velocity;
  const step = marks.findLast((mark) => mark.tick <= tick)?.step ?? MEZZO_FORTE;
  const level = VELOCITIES[step] ?? VELOCITIES[MEZZO_FORTE];
  const pin = hairpins.findLast((one) => one.tick <= tick && tick <= one.untilTick);
  const goal = pin === undefined ? level : (VELOCITIES[marks.find((mark) => mark.tick >= pin.untilTick && mark.tick <= pin.untilTick + (pin.untilTick - pin.tick))?.step ?? step + (pin.kind === 'crescendo' ? 1 : -1)] ?? level);
  const way = pin === undefined ? 0 : (tick - pin.tick) / (pin.untilTick - pin.tick);
  const accent = sforzati.includes(tick) ? SFORZATO : note.articulations.some((mark) => mark === 'accent' || mark === 'strongAccent') ? ACCENT : 0;
  return Math.max(1, Math.min(127, Math.round(level + way * (goal - level) + accent)));
}
