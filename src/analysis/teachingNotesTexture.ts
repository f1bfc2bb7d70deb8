/** What the hands and the foot have to do, in sentences: touches, the bass, loud and soft, the pedal. */
import { word } from '../base/index.js';
import { barAtTick, type Score } from '../score/index.js';
import { harmonyFacts } from './pedalPlanFacts.js';
import { STACCATO_REASON } from './pedalPlanHarmony.js';
import { wordedStretches } from './pedalPlanPrinted.js';
import type { PedalEntry } from './pedalPlanTypes.js';
import { spansInWords, spansOf } from './teachingNotesBars.js';
import { say, wholePiece, type Candidate, type NotesGround } from './teachingNotesGround.js';
import type { BarSpan } from './teachingNotesTypes.js';

/** From this share of short notes on, `>=`, a hand plays staccato in a bar. */
const STACCATO_SHARE = 0.6;

/** Shorter stretches of one texture (bars) are not worth a sentence. */
const LEAST_BARS = 3;

/** The loudest or softest mark is named where it stands in no more places than this. */
const MOST_EXTREMES = 3;

/** A texture of a smaller share of the bars is left out; from the larger share on it fills "most bars". */
const LEAST_SHARE = 0.12;
const MOST_SHARE = 0.6;

/** Dynamic marks from soft to loud. */
const LOUDNESS = ['pppp', 'ppp', 'pp', 'p', 'mp', 'mf', 'f', 'ff', 'fff', 'ffff'];

/** Two touches, a bass that is left, loudest and softest, the pedal. */
export function textureCandidates(ground: NotesGround): readonly Candidate[] {
  return [
    ...(ground.told.has('twoTouches') ? [] : twoTouches(ground)),
    ...(ground.told.has('bassToCatch') ? [] : leftBasses(ground)),
    ...extremes(ground),
    ...pedalSentence(ground),
  ];
}

/** "Two touches at once: the left hand is staccato under a slurred right hand in bars 1–8." */
function twoTouches({ score, sounds, language }: NotesGround): readonly Candidate[] {
  const slurred = slurredBars(score);
  const bars = score.bars.filter((bar) => {
    const inBar = sounds.filter((sound) => sound.barIndex === bar.index);
    const [left, right] = [inBar.filter((sound) => sound.left), inBar.filter((sound) => !sound.left)];
    const short = left.filter((sound) => sound.staccato).length;
    return left.length >= 2 && short / left.length >= STACCATO_SHARE && right.length >= 2 && !right.some((sound) => sound.staccato) && slurred.has(bar.index);
  });
  if (bars.length < LEAST_BARS) return [];
  const spans = spansOf(bars.map((bar) => bar.index));
  return [say(`Two touches at once: the left hand is staccato under a slurred right hand in ${spansInWords(score, spans, language)}.`, spans, 7.5)];
}

/** Bars in which a slur of the right hand begins, ends or goes on. */
function slurredBars(score: Score): ReadonlySet<number> {
  const covered = new Set<number>();
  let open = false;
  for (const note of score.notes.filter((each) => each.staff === 1).toSorted((a, b) => a.onsetTick - b.onsetTick)) {
    const [starts, stops] = [note.slurs.some((slur) => slur.kind === 'start'), note.slurs.some((slur) => slur.kind === 'stop')];
    if (starts || stops || open) covered.add(note.barIndex);
    open = starts || (open && !stops);
  }
  return covered;
}

/** "The left hand leaves its low bass for a figure out of reach: only the pedal keeps it (bars 1–24)." */
function leftBasses(ground: NotesGround): readonly Candidate[] {
  const { score, language } = ground;
  const pressed = ground.pedalPlan.entries.filter((entry) => entry.kind !== 'none' && entry.kind !== 'up');
  const kept = (tick: number): boolean => pressed.some((entry) => entry.fromTick <= tick && tick < entry.toTick);
  const left = harmonyFacts(score, ground.harmony, ground.sounds).filter((facts) => facts.bassLeft && facts.bass?.left === true && kept(facts.bass.fromTick));
  const spans = spansOf(left.map((facts) => facts.bass?.barIndex ?? facts.harmony.barIndex));
  const bars = spans.reduce((sum, span) => sum + span.toBar - span.fromBar + 1, 0);
  if (bars < Math.max(LEAST_BARS, LEAST_SHARE * score.bars.length)) return [];
  const where = bars >= MOST_SHARE * score.bars.length ? `in most ${word('bars', language)}` : `in ${spansInWords(score, spans, language)}`;
  return [say(`The left hand leaves its bass for notes out of reach ${where}: where it should sound on, only the pedal can keep it.`, spans, 7)];
}

/** "The loudest mark is f, in bar 15; the softest pp, in bar 28." */
function extremes({ score, language }: NotesGround): readonly Candidate[] {
  const marks = score.directions.filter((mark) => mark.kind === 'dynamics' && LOUDNESS.includes(mark.text));
  const ranks = marks.map((mark) => LOUDNESS.indexOf(mark.text));
  const softest = ranks.reduce((least, rank) => Math.min(least, rank), Infinity);
  const loudest = ranks.reduce((most, rank) => Math.max(most, rank), -Infinity);
  if (marks.length < 3 || softest === loudest) return [];
  const at = (rank: number): readonly BarSpan[] => [...new Set(marks.filter((mark) => mark.text === LOUDNESS[rank]).map((mark) => mark.barIndex))].map((bar) => ({ fromBar: bar, toBar: bar }));
  const [loud, soft] = [at(loudest), at(softest)];
  if (loud.length > MOST_EXTREMES || soft.length > MOST_EXTREMES) return [];
  return [say(`The loudest mark is ${LOUDNESS[loudest] ?? ''}, in ${spansInWords(score, loud, language)}; the softest ${LOUDNESS[softest] ?? ''}, in ${spansInWords(score, soft, language)}.`, [...loud, ...soft], 5)];
}

/** What the plan of the pedal rests on, in a sentence. */
function pedalSentence({ score, pedalPlan, language }: NotesGround): readonly Candidate[] {
  const { basis, entries } = pedalPlan;
  const pressed = entries.filter((entry) => entry.kind === 'down' || entry.kind === 'change' || entry.kind === 'ring');
  const printed = spansOf(pressed.filter((entry) => entry.source === 'printed').flatMap((entry) => barsOf(score, entry)));
  const marked = new Set(printed.flatMap(({ fromBar, toBar }) => Array.from({ length: toBar - fromBar + 1 }, (_, i) => fromBar + i)));
  const proposed = spansOf(pressed.filter((entry) => entry.source !== 'printed').flatMap((entry) => barsOf(score, entry)).filter((bar) => !marked.has(bar)));
  if (score.source === 'midi') return basis === 'none' ? [] : [say(`The plan proposes the pedal ${covers(score, proposed) ? 'throughout' : `in ${spansInWords(score, proposed, language)}`}.`, proposed, 5)];
  if (basis === 'none') return entries.length === 0 ? [] : [say(isDry(entries) ? 'No pedal is marked, and the staccato of the accompaniment asks for none.' : 'No pedal is marked; where it is used, it is for colour.', [wholePiece(score)], 4)];
  const asked = askedInWords({ score, language }, { printed, proposed });
  if (asked !== null) return [asked];
  if (basis === 'printed') return [say(`The pedal is marked ${covers(score, printed) ? 'throughout' : `in ${spansInWords(score, printed, language)}`}.`, printed, 4.5)];
  if (basis === 'harmony') return [say(`No pedal is drawn; the plan proposes it ${covers(score, proposed) ? 'throughout' : `in ${spansInWords(score, proposed, language)}`}.`, proposed, 5.5)];
  return [say(`The pedal is marked in ${spansInWords(score, printed, language)}; the plan proposes it too in ${spansInWords(score, proposed, language)}.`, [...printed, ...proposed], 5)];
}

/** Whether most of a plan without pedal is dry because the accompaniment is short. */
function isDry(entries: readonly PedalEntry[]): boolean {
  const ticks = (some: readonly PedalEntry[]): number => some.reduce((sum, entry) => sum + entry.toTick - entry.fromTick, 0);
  return 2 * ticks(entries.filter((entry) => entry.reason === STACCATO_REASON)) > ticks(entries);
}

/** '"con pedale" in bar 1; a pedal is drawn in bars 9–12 and 30–31.' Null where no words ask for the pedal. */
function askedInWords({ score, language }: Pick<NotesGround, 'score' | 'language'>, { printed, proposed }: { readonly printed: readonly BarSpan[]; readonly proposed: readonly BarSpan[] }): Candidate | null {
  const words = wordedStretches(score).filter((stretch) => stretch.asks === 'pedal');
  const [first] = words;
  if (first === undefined || proposed.length === 0) return null;
  const bar = barAtTick(score, first.fromTick).barIndex;
  const drawn = printed.length === 0 ? '' : `; it is drawn in ${spansInWords(score, printed, language)}`;
  return say(`"${first.text.trim()}" in ${spansInWords(score, [{ fromBar: bar, toBar: bar }], language)} asks for the pedal, changed with the harmony${drawn}.`, [{ fromBar: bar, toBar: bar }, ...printed], 5.5);
}

/** Nearly all bars, `>=`, are "throughout". */
const THROUGHOUT_SHARE = 0.95;

/** Whether some stretches cover nearly the whole piece. */
function covers(score: Score, spans: readonly BarSpan[]): boolean {
  return spans.reduce((sum, span) => sum + span.toBar - span.fromBar + 1, 0) >= THROUGHOUT_SHARE * score.bars.length;
}

/** All bars that an entry reaches into. */
function barsOf(score: Score, { barIndex, toTick }: PedalEntry): readonly number[] {
  const last = barAtTick(score, toTick - 1).barIndex;
  return Array.from({ length: last - barIndex + 1 }, (_, i) => barIndex + i);
}
