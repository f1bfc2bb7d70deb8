/**
 * The question: where must the hands touch differently, where must a finger hold, and where is the bass lost?
 * Conventions: bars by the printed signs alone; harmonies and their basses as the pedal plan sees them.
 * Method: two touches: one hand staccato in a bar that the other has under slurs. Bass: where the pedal is marked and the left
 * hand has to leave a harmony's bass for notes out of reach (the facts of the pedal plan).
 * It does not tell touch that is meant but not printed.
 */
import type { HandPlace } from './handTypes.js';
import { harmonyFacts } from './pedalPlanFacts.js';
import { soundsOf } from './sounds.js';
import { BOTH_HANDS, handOfStaff, type HandEvent, type OneHand } from './handLines.js';
import { otherHand } from './beatContext.js';
import { between, groupsOf } from './pitfallWords.js';
import type { PitfallDraft, PitfallGround } from './pitfallTypes.js';

/** From this share of staccato strikes on a hand is short in a bar (inclusive). */
const STACCATO_SHARE = 0.6;

/** Bars of two touches, and of basses that are left, from which it is a matter of its own (inclusive). */
const LEAST_BARS = 2;

/** Bars from which it is as hard as it gets. */
const MANY_BARS = 12;

type HeldVoice = Extract<HandPlace, { kind: 'heldVoice' }>;

/** Drafts about touch and bass. */
export function touchPitfalls(ground: PitfallGround): readonly PitfallDraft[] {
  const held = ground.hands.filter((place): place is HeldVoice => place.kind === 'heldVoice');
  return [
    ...BOTH_HANDS.flatMap((hand) => twoTouches(ground, hand) ?? []),
    ...(bassToCatch(ground) ?? []),
    ...groupsOf(held, (place) => `${place.hand} ${String(place.above)}`).flatMap((group) => heldVoice(group) ?? []),
  ];
}

/** One hand short while the other is slurred. */
function twoTouches({ score, lines }: PitfallGround, short: OneHand): PitfallDraft | null {
  const smooth = otherHand(short);
  const byBar = (hand: OneHand): ReadonlyMap<number, readonly HandEvent[]> =>
    new Map(groupsOf(lines[hand], (event) => String(event.barIndex)).map((events) => [events[0].barIndex, events]));
  const [shortBars, smoothBars, slurred] = [byBar(short), byBar(smooth), slurredBars({ score }, smooth)];
  // a bar counts where enough is short on one side and nothing on the other
  const bars = [...slurred].filter((bar) => {
    const [shorts, smooths] = [shortBars.get(bar) ?? [], smoothBars.get(bar) ?? []];
    return shorts.length >= 2 && smooths.length >= 2 && shorts.filter(isStaccato).length / shorts.length >= STACCATO_SHARE && !smooths.some(isStaccato);
  });
  if (bars.length < LEAST_BARS) return null;
  return {
    kind: 'twoTouches',
    hand: 'both',
    spots: bars.map((bar) => ({ fromBar: bar, toBar: bar })),
    severity: 0.5 + 0.4 * between(bars.length, LEAST_BARS, MANY_BARS),
    sentence: `The ${short} hand is short while the ${smooth} is slurred, and one touch will spread to the other hand.`,
    practise: `Short ${short} hand alone, then add the smooth ${smooth} hand.`,
  };
}

/** Held notes of one hand. */
function heldVoice(group: readonly [HeldVoice, ...HeldVoice[]]): PitfallDraft | null {
  const [{ hand, above }] = group;
  if (group.length < LEAST_BARS) return null;
  return {
    kind: 'heldVoice',
    hand,
    spots: group,
    severity: 0.3 + 0.5 * between(group.length, LEAST_BARS, MANY_BARS),
    sentence: above
      ? 'The upper fingers hold a note while the others play under it, and it will be let go or covered.'
      : 'One finger holds a note while the others go on, and it will be let go too soon.',
    practise: above ? 'Upper notes alone, sung on for their full length; then add the others, softer.' : 'Put the held note down and leave it there, and let the other fingers move lightly.',
  };
}

/** Basses that only the pedal keeps, where the pedal is marked. */
function bassToCatch({ score, harmony }: PitfallGround): readonly PitfallDraft[] | null {
  const marked = score.directions.some((mark) => mark.kind === 'pedal' || (mark.kind === 'words' && /\bped/i.test(mark.text)));
  if (harmony === null || !marked) return null;
  const left = harmonyFacts(score, harmony, soundsOf(score)).filter((facts) => facts.bassLeft && !facts.staccato && facts.bass?.left === true);
  const bars = [...new Set(left.map((facts) => facts.harmony.barIndex))];
  if (bars.length < LEAST_BARS) return null;
  return [
    {
      kind: 'bassToCatch',
      hand: 'left',
      spots: bars.map((bar) => ({ fromBar: bar, toBar: bar })),
      severity: 0.5 + 0.4 * between(bars.length, LEAST_BARS, MANY_BARS),
      sentence: 'The hand leaves the bass for notes out of its reach, and the bass is lost wherever the foot comes late.',
      practise: 'Bass and pedal alone: hold the key until the foot is down, and only then leave it.',
    },
  ];
}

/** A short strike. */
function isStaccato(event: HandEvent): boolean {
  return event.notes.some((one) => one.note.articulations.some((sign) => sign === 'staccato' || sign === 'staccatissimo' || sign === 'spiccato'));
}

/** Bars in which a slur of a hand begins, ends or goes on. */
function slurredBars({ score }: Pick<PitfallGround, 'score'>, hand: OneHand): ReadonlySet<number> {
  const covered = new Set<number>();
  // slurs of several voices may overlap, so they are counted
  let open = 0;
  for (const note of score.notes.filter((one) => handOfStaff(one.staff) === hand && one.grace === null).toSorted((a, b) => a.onsetTick - b.onsetTick)) {
    const starts = note.slurs.filter((slur) => slur.kind === 'start').length;
    const stops = note.slurs.filter((slur) => slur.kind === 'stop').length;
    if (open > 0 || starts > 0 || stops > 0) covered.add(note.barIndex);
    open = Math.max(0, open + starts - stops);
  }
  return covered;
}
