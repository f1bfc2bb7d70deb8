/**
 * The question: where will the key signature be forgotten?
 * Conventions: the bar of a change is the first in the new signature; a sign is met where a hand first reads a note that it alters.
 * Method: a change of signature in the course of the piece, and the last sharp or flat of a signature of two or more, which is
 * met least at first and forgotten longest (common practice, no source). Only the opening signature is looked through: later ones
 * have their change.
 * It does not tell a signature from the key: for that there is the harmony.
 */
import { countInWords } from '../base/index.js';
import { alterInSignature, FIFTHS, spellingInWords } from './noteNames.js';
import { groupsOf, theHand } from './pitfallWords.js';
import type { PitfallDraft, PitfallGround } from './pitfallTypes.js';
import type { ScoreNote } from '../score/index.js';
import { handOfStaff } from './handLines.js';

/** Signatures from so many signs on have a last one that is forgotten (inclusive). */
const LEAST_SIGNS = 2;

/** Drafts about signatures. */
export function signaturePitfalls(ground: PitfallGround): readonly PitfallDraft[] {
  return [...changes(ground), ...lastSigns(ground)];
}

/** Changes of signature. */
function changes({ score }: PitfallGround): readonly PitfallDraft[] {
  return score.bars.flatMap((bar, i): readonly PitfallDraft[] => {
    const before = score.bars[i - 1]?.key.fifths;
    const { fifths } = bar.key;
    if (before === undefined || before === fifths) return [];
    return [
      {
        kind: 'signatureChange',
        hand: 'both',
        spots: [{ fromBar: i, toBar: i }],
        severity: 0.4 + 0.06 * Math.min(6, Math.abs(before - fifths)),
        sentence: `The signature changes from ${signs(before)} to ${signs(fifths)}, and the old one will be read on.`,
        practise: 'Play the scale of the new signature first, and ring the first note that it alters.',
      },
    ];
  });
}

/** The last sign of the opening signature, where each hand first meets it. */
function lastSigns({ score }: PitfallGround): readonly PitfallDraft[] {
  const fifths = score.bars[0]?.key.fifths ?? 0;
  if (Math.abs(fifths) < LEAST_SIGNS) return [];
  const step = fifths > 0 ? FIFTHS[fifths - 1] : FIFTHS[7 + fifths];
  if (step === undefined) return [];
  const alter = alterInSignature(step, fifths);
  const read = score.notes.filter((note) => note.pitch.step === step && note.pitch.alter === alter && !note.tieStop && !note.hidden && !note.cue);
  const inOpening = read.filter((note) => score.bars[note.barIndex]?.key.fifths === fifths);
  const hands = groupsOf(inOpening, (note) => handOfStaff(note.staff));
  const spots = hands.map(firstBar).map((barIndex) => ({ fromBar: barIndex, toBar: barIndex }));
  if (spots.length === 0) return [];
  const name = spellingInWords({ step, alter });
  const [only] = hands;
  const hand = hands.length === 1 && only !== undefined ? handOfStaff(only[0].staff) : 'both';
  return [
    {
      kind: 'signatureSlip',
      hand,
      spots,
      severity: 0.4,
      sentence: `${name} is the last ${alter > 0 ? 'sharp' : 'flat'} of the signature and will be forgotten where ${theHand(hand)} first ${hand === 'both' ? 'meet' : 'meets'} it.`,
      practise: `Ring the first ${name} in ${hand === 'both' ? 'each hand' : 'the hand'} and name it aloud from the bar before.`,
    },
  ];
}

/** The first bar of some notes. */
function firstBar(notes: readonly ScoreNote[]): number {
  return notes.reduce((first, note) => Math.min(first, note.barIndex), Infinity);
}

/** "three flats", "no sharps or flats". */
function signs(fifths: number): string {
  if (fifths === 0) return 'no sharps or flats';
  const name = fifths > 0 ? 'sharp' : 'flat';
  return `${countInWords(Math.abs(fifths))} ${name}${Math.abs(fifths) === 1 ? '' : 's'}`;
}
