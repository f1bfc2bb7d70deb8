/**
 * The question: where will a printed change of tempo go wrong?
 * Method: "a tempo" after a slowing, and a slowing that nothing takes back before the end. Words in Italian and English, common
 * practice, not complete.
 */
import type { PitfallDraft, PitfallGround } from './pitfallTypes.js';

/** Words that slow down. */
const SLOWING = /\b(rit|ritard\w*|riten\w*|rall\w*|allarg\w*|slentando|calando|smorz\w*|morendo|slower|slowing)\b/i;

/** Words that go back to the tempo. */
const BACK = /\b(a tempo|in tempo|tempo (i|1|primo)\b)/i;

/** Drafts about tempo. */
export function tempoPitfalls({ score }: PitfallGround): readonly PitfallDraft[] {
  const marks = score.directions.filter((mark) => mark.kind === 'tempo' || mark.kind === 'words').toSorted((a, b) => a.onsetTick - b.onsetTick);
  let slowing: number | null = null;
  const back: number[] = [];
  for (const { text, barIndex, kind, value } of marks) {
    if (SLOWING.test(text)) slowing = barIndex;
    else if (BACK.test(text)) {
      if (slowing !== null) back.push(barIndex);
      slowing = null;
    } else if (kind === 'tempo' && value !== null) slowing = null;
  }
  const spots = [...new Set(back)].map((bar) => ({ fromBar: bar, toBar: bar }));
  return [...(spots.length > 0 ? [backInTime(spots)] : []), ...(slowing === null ? [] : closing(slowing, score.bars.length - 1))];
}

/** Places where the tempo comes back. */
function backInTime(spots: PitfallDraft['spots']): PitfallDraft {
  return {
    kind: 'backInTime',
    hand: 'both',
    spots,
    severity: 0.5,
    sentence: 'The tempo is to come back at once after the slowing, and will come back late or not at all.',
    practise: 'Hear a bar of the opening in your head on the last slow beat, then go on in that time.',
  };
}

/** The slowing at the end, where it has room to grow. */
function closing(fromBar: number, lastBar: number): readonly PitfallDraft[] {
  if (lastBar <= fromBar) return [];
  return [
    {
      kind: 'closingRitardando',
      hand: 'both',
      spots: [{ fromBar, toBar: lastBar }],
      severity: 0.5,
      sentence: 'The slowing at the end will come all at once, or not at all.',
      practise: 'Let each beat be a little longer than the one before, and keep most of it for the last bar.',
    },
  ];
}
