/** Names of the written notes of a demo piece, the same in the score file and in the truth beside each recording. */

/** Which hand of the player, and so which stave. */
export type Hand = 'right' | 'left';

/**
 * Id of a written note: hand, printed bar, place of the chord in the bar from 1 (rests counted), and from the second
 * note of a chord upwards a letter: `r12-3`, `l7-2b`.
 */
export function noteId(hand: Hand, bar: string, place: { readonly event: number; readonly inChord: number }): string {
  const letter = place.inChord === 0 ? '' : 'abcdefgh'.charAt(place.inChord);
  return `${hand.charAt(0)}${bar}-${place.event + 1}${letter}`;
}
