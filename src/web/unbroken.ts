/** A note and its sign, as they are said: "F sharp". */
const SIGNED_NOTE = /\b([A-G]) (?=(?:double )?(?:sharp|flat|natural)\b)/g;

/** The same words, held together at the end of a line: "F" on one line and "sharp" on the next would be misread. */
export function unbroken(text: string): string {
  return text.replace(SIGNED_NOTE, '$1\u00a0');
}
