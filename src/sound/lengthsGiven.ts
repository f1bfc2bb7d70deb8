/*
 * Rests and ties given their length: keys come up later or sooner where that was remarked on; a tie that was struck again is held instead.
 *
 * Conventions: seconds, by the pulse as it was played around there. Onsets, levels and every other release stay. Of the pedal only what fills a rest
 *   of all staves is changed: the foot goes up where the silence is written.
 * Source: what is written; what counts as too short or too long is judged elsewhere.
 * What it does not tell: how a note should be joined to the next; that is touch.
 */
import { noteInWords } from '../judge/index.js';
import type { BarFacts, SilenceFacts } from '../measure/index.js';
import { draftOf, endsBefore, versionOf, type DraftNote } from './draft.js';
import { withFoot } from './footChanges.js';
import { crotchetIn, lengthInWords } from './lengthWords.js';
import { placesOf, visitOf, type RemarkedPlace } from './places.js';
import type { Change, SoundInput, Version } from './types.js';

/** What one remark changes: new releases by place in the notes as played, notes that go, a silence for the foot. */
interface Mended {
  readonly releases: readonly (readonly [note: number, releaseS: number])[];
  readonly gone?: number;
  readonly silence?: SilenceFacts;
  readonly text: string;
}

/** Her playing with every length as long as written where it was remarked on. */
export function lengthsGiven(input: SoundInput): Version {
  const changes: Change[] = [];
  const releases = new Map<number, number>();
  const gone = new Set<number>();
  let { sustain } = input.recording;
  for (const place of placesOf(input.observations, 'lengths')) {
    const visit = visitOf(input, place);
    if (visit === undefined) continue;
    for (const mended of mend(input, place, visit)) {
      for (const [note, releaseS] of mended.releases) releases.set(note, releaseS);
      if (mended.gone !== undefined) gone.add(mended.gone);
      if (mended.silence !== undefined) sustain = withFoot(sustain, { ...mended.silence, value: 0 });
      changes.push({ barIndex: place.fromBar, startS: place.startS, text: mended.text });
    }
  }
  const kept = draftOf(input.recording).filter(({ from }) => from === null || !gone.has(from));
  const endOf = endsBefore(kept);
  const notes = kept.map((note): DraftNote => {
    const wantedS = releases.get(note.from ?? -1);
    return wantedS === undefined ? note : { ...note, releaseS: endOf(note, wantedS) };
  });
  return versionOf('lengths', input.recording, { notes, sustain, changes });
}

/** What one remark changes. */
function mend(input: SoundInput, place: RemarkedPlace, visit: BarFacts): readonly Mended[] {
  switch (place.kind) {
    case 'shortNote':
    case 'tieBroken':
    case 'innerLetGo':
      return pairsAt(input, place, visit).flatMap((pair) => heldOn(input, pair, visit));
    case 'tieStruckAgain':
      return notStruckAgain(input, place);
    case 'filledRest':
    case 'pedalInRest':
      return silent(input, place, visit);
    default:
      return [];
  }
}

/** Places in `Alignment.pairs` of the remarked notes in their visit. */
function pairsAt({ score, alignment }: SoundInput, { notes }: RemarkedPlace, { stretch, visitIndex }: BarFacts): readonly number[] {
  return alignment.pairs.flatMap((pair, index) => {
    const occurrence = score.occurrences[pair.occurrence];
    return pair.stretch === stretch && occurrence?.visitIndex === visitIndex && notes.includes(occurrence.noteIndex) ? [index] : [];
  });
}

/** A note that was let go too soon. */
function heldOn(input: SoundInput, pair: number, visit: BarFacts): readonly Mended[] {
  const length = input.measures.holding.notes.find((one) => one.pair === pair)?.length;
  const { note, name } = playedAt(input, pair);
  if (note === undefined || length?.measured !== true) return [];
  const { writtenS, soundS } = length.value;
  return [{ releases: [[note.index, note.onsetS + writtenS]], text: `the ${name} would sound for ${lengthInWords(writtenS - soundS, crotchetIn(input.measures, visit))} more` }];
}

/** A tie that was struck again: its second stroke goes, and the first lasts as long as that did. */
function notStruckAgain(input: SoundInput, { notes, startS }: RemarkedPlace): readonly Mended[] {
  const tie = input.measures.holding.restruck.find(({ note, tied }) => notes.includes(tied) && input.recording.notes[note]?.onsetS === startS);
  const again = input.recording.notes[tie?.note ?? -1];
  const { note, name } = playedAt(input, tie?.pair ?? -1);
  if (again === undefined || note === undefined) return [];
  return [{ releases: [[note.index, again.releaseS]], gone: again.index, text: `the tied ${name} would sound on and not be struck again` }];
}

/** A rest that was filled, by keys or by the foot. */
function silent(input: SoundInput, { kind, notes }: RemarkedPlace, visit: BarFacts): readonly Mended[] {
  const { measures, score, alignment, recording } = input;
  const own = measures.holding.silences.filter(({ stretch, lastPair, staff }) => {
    const occurrence = score.occurrences[alignment.pairs[lastPair]?.occurrence ?? -1];
    return stretch === visit.stretch && occurrence?.visitIndex === visit.visitIndex && notes.includes(occurrence.noteIndex) && (staff === null) === (kind === 'pedalInRest');
  });
  return own.map((silence): Mended => {
    const held = alignment.pairs.flatMap(({ occurrence, note, stretch }): readonly (readonly [number, number])[] => {
      const written = score.occurrences[occurrence];
      const played = recording.notes[note];
      const before = stretch === silence.stretch && written !== undefined && written.endTick <= silence.fromTick && (silence.staff === null || written.staff === silence.staff);
      return before && played !== undefined && played.onsetS < silence.fromS && played.releaseS > silence.fromS && played.onsetS < silence.toS ? [[note, silence.fromS]] : [];
    });
    const earlier = lengthInWords(kind === 'pedalInRest' ? silence.soundS : silence.heldS, crotchetIn(measures, visit));
    const who = kind === 'pedalInRest' ? 'the sound' : `the ${playedAt(input, silence.lastPair).name}`;
    return { releases: held, ...(kind === 'pedalInRest' ? { silence } : {}), text: `${who} would stop ${earlier} earlier, and the rest would be silent` };
  });
}

/** The key press of a pair, and the name of its written note. */
function playedAt({ score, alignment, recording }: SoundInput, pair: number) {
  const aligned = alignment.pairs[pair];
  const written = score.notes[score.occurrences[aligned?.occurrence ?? -1]?.noteIndex ?? -1];
  return { note: recording.notes[aligned?.note ?? -1], name: written === undefined ? 'note' : noteInWords(written.pitch) };
}
