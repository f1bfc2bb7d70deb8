/** Names that tell a piano, or one of its hands, in the usual languages of scores. */

/** Names that keyboard parts go by in scores. */
const KEYBOARD = /piano|klavier|clavier|keyboard|cembalo|harpsichord|clavecin|clavichord/i;

/** Names of a part or track that holds one hand of a piano, in the usual languages of scores. */
const RIGHT_HAND = /\b(right|r\.? ?h\.?|rechts|rechte|droite|destra|treble|upper)(?!\w)/i;
const LEFT_HAND = /\b(left|l\.? ?h\.?|links|linke|gauche|sinistra|bass|lower)(?!\w)/i;

/** True for the name of a keyboard part. */
export function namesKeyboard(name: string): boolean {
  return KEYBOARD.test(name);
}

/** True for the name of a right hand alone. */
export function namesRightHand(name: string): boolean {
  return RIGHT_HAND.test(name) && !LEFT_HAND.test(name);
}

/** True for the name of a left hand alone. */
export function namesLeftHand(name: string): boolean {
  return LEFT_HAND.test(name) && !RIGHT_HAND.test(name);
}
