/*
 * Question: which keys, harmonies and cadences does a piece have?
 * Conventions: written bars, each once; see types.ts.
 * Method: keys from the notes alone, harmonies in these keys, keys again with the harmonies, harmonies again; then names,
 *   phrase ends, cadences. Pure; a score without notes gives an empty analysis.
 * Source: see the headers of the parts.
 * What it does not tell: one musicologist's labels; another would differ in a fifth of them.
 */
import type { Score } from '../score/index.js';
import { cadencesAt } from './cadences.js';
import { draftsOf, spelledKey, type SpelledKey } from './draft.js';
import { gatherEvidence } from './evidence.js';
import { findGlobalKey } from './globalKey.js';
import { harmonyCells } from './grid.js';
import { keyOfBars } from './keyPath.js';
import { durationsOf, keySpans } from './keySpans.js';
import { withHeardBasses } from './heardBass.js';
import { modalColour } from './modalColour.js';
import { nameHarmony } from './nameHarmony.js';
import { soundingNotes, type SoundingNote } from './notes.js';
import { phraseEndIndices } from './phraseEnds.js';
import { fifthsName } from './pitchNames.js';
import { keyNumber, modeOf, tonicOf } from './profiles.js';
import { reinterpret } from './reinterpret.js';
import { segmentHarmony } from './segment.js';
import { splitSixFours } from './sixFour.js';
import { closesBySlurs } from './slurs.js';
import type { GlobalKey, Harmony, HarmonyAnalysis } from './types.js';

/** Analyses a score. Never throws for a score that `readScore` gave. */
export function analyseHarmony(score: Score): HarmonyAnalysis {
  const notes = withHeardBasses(score, soundingNotes(score));
  const cells = harmonyCells(score, notes);
  if (cells.length === 0) return { globalKey: null, keys: [], harmonies: [], cadences: [], phraseEnds: [] };
  const { barKeys, segments } = keysAndSegments(score, notes);
  const spans = keySpans(score, barKeys, notes);
  const keyAt = ({ barIndex }: { readonly barIndex: number }): SpelledKey =>
    spans.find(({ toBar }) => barIndex <= toBar)?.spelled ?? spelledKey(barKeys[barIndex] ?? 0, 0);
  const drafts = reinterpret(draftsOf(segments, cells, { notes, keyAt }), score.source === 'musicxml');
  const harmonies = drafts.map((draft, i) => nameHarmony(score, draft, drafts[i + 1] ?? null));
  const keys = spans.map(({ span }) => span);
  const tune = tuneOf(notes);
  const closes = closesBySlurs(score, harmonies, phraseEndIndices(score, harmonies, { keys, tune }));
  return {
    globalKey: globalKeyOf(score, { notes, barKeys, harmonies }),
    keys,
    harmonies,
    cadences: cadencesAt([...new Set(closes.map((close) => close.harmony))], harmonies, keys),
    phraseEnds: closes.flatMap(({ harmony: i, lastNoteTick }) => {
      const harmony = harmonies[i];
      return harmony === undefined ? [] : [{ tick: harmony.fromTick, barIndex: harmony.barIndex, offset: harmony.offset, lastNoteTick }];
    }),
  };
}

/** Keys and segments, each found twice so that they help one another. */
function keysAndSegments(
  score: Score,
  notes: readonly SoundingNote[],
): { readonly barKeys: readonly number[]; readonly segments: ReturnType<typeof segmentHarmony> } {
  const cells = harmonyCells(score, notes);
  const evidence = gatherEvidence(cells, notes, score.ticksPerQuarter);
  const inKeys = (barKeys: readonly number[]): ReturnType<typeof segmentHarmony> =>
    segmentHarmony(evidence, cells.map((cell) => barKeys[cell.barIndex] ?? 0));
  const first = inKeys(keyOfBars(score, notes));
  const barKeys = keyOfBars(score, notes, { cells, segments: first });
  return { barKeys, segments: splitSixFours(inKeys(barKeys), evidence) };
}

/** The key of the whole as a record. */
function globalKeyOf(
  score: Score,
  { notes, barKeys, harmonies }: { readonly notes: readonly SoundingNote[]; readonly barKeys: readonly number[]; readonly harmonies: readonly Harmony[] },
): GlobalKey {
  const durations = durationsOf(notes, { from: 0, to: Infinity });
  const fifths = score.bars[0]?.key.fifths ?? 0;
  const last = harmonies.at(-1);
  const { key, confidence } = findGlobalKey({ durations, barKeys, fifths, openingTriads: openingTriads(harmonies), lastRoot: last?.root ?? null });
  const name = { tonic: tonicOf(key), mode: modeOf(key) };
  return {
    ...name,
    // the notes of the signature's major key lie two steps above its tonic on average
    spelling: fifthsName(spelledKey(key, fifths + 2).fifths),
    confidence,
    colour: modalColour(name, durations),
    picardyClose: name.mode === 'minor' && last !== undefined && last.root === name.tonic && last.quality === 'major',
  };
}

/** The first bars: a phrase of the usual length. */
const OPENING_BARS = 4;

/** Keys whose tonic triads sound in the first bars. */
function openingTriads(harmonies: readonly Harmony[]): ReadonlySet<number> {
  return new Set(harmonies.filter((one) => one.barIndex <= OPENING_BARS).flatMap(({ root, quality }) => (root !== null && (quality === 'major' || quality === 'minor') ? [keyNumber(root, quality)] : [])));
}

/** The tune: full notes of the topmost stave that no sounding note lies above. */
function tuneOf(notes: readonly SoundingNote[]): readonly SoundingNote[] {
  const top = notes.reduce((least, note) => Math.min(least, note.staff), Infinity);
  const upper = notes.filter((note) => !note.grace && note.staff === top).sort((a, b) => a.onset - b.onset || b.midi - a.midi);
  const tune: SoundingNote[] = [];
  for (const note of upper) {
    const last = tune.at(-1);
    if (last === undefined || note.onset >= last.end || (note.midi > last.midi && note.onset > last.onset)) tune.push(note);
  }
  return tune;
}
