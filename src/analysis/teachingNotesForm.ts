/** The form in sentences: sections, how they are played, what a return changes. */
import { countInWords, listInWords, sentenceCase, word } from '../base/index.js';
import type { Change, Phrase, Section } from './formTypes.js';
import { barNumber, barsInWords, numbersInWords, spansInWords, spansOf } from './teachingNotesBars.js';
import { hasNoBarLines } from './teachingNotesLimits.js';
import { hasKeys } from './teachingNotesTonality.js';
import { say, wholePiece, type Candidate, type NotesGround } from './teachingNotesGround.js';

/** Up to so many sections are listed with their bars; of more, the returns are told. */
const MOST_LISTED = 9;

/** A length is the usual one where this share of the phrases has it; `>=`. */
const USUAL_SHARE = 0.75;

/** A playing order longer than this is no help. */
const MOST_PLAYED = 10;

/** Returns told one by one. */
const MOST_RETURNS = 3;

/** Sections, playing order, returns. */
export function formCandidates(ground: NotesGround): readonly Candidate[] {
  if (hasNoBarLines(ground.score)) return [];
  const { sections } = ground.form;
  return sections.length < 2 ? onePart(ground) : [...listed(ground), ...returnSentences(ground)];
}

/** A piece without sections: its phrases. */
function onePart(ground: NotesGround): readonly Candidate[] {
  const { score, form, language } = ground;
  if (form.phrases.length < 2) return [];
  // where nothing comes to rest in a key, the ends of phrases are guesses
  const usual = hasKeys(ground) ? usualLength(score, form.phrases) : null;
  const length = usual === null ? '' : `; it moves in phrases of ${countInWords(usual)} ${word(usual === 1 ? 'bar' : 'bars', language)}`;
  return [say(`No clear division into sections${length}.`, [wholePiece(score)], 8.5)];
}

/** The length in bars that nearly all phrases have, or null. */
function usualLength(score: NotesGround['score'], phrases: readonly Phrase[]): number | null {
  const lengths = phrases.map((phrase) => Math.round((phrase.untilTick - phrase.from.tick) / Math.max(1, score.bars[phrase.from.barIndex]?.nominalTicks ?? 1)));
  const usual = [...new Set(lengths)].find((length) => lengths.filter((other) => other === length).length >= USUAL_SHARE * lengths.length);
  return usual === undefined || usual === 0 ? null : usual;
}

/** "Form: A (bars 1–8), B (9–16), A' (17–23) and a coda (24–30)." */
function listed({ score, form, language }: NotesGround): readonly Candidate[] {
  const { sections, played } = form;
  if (sections.length > MOST_LISTED) return [manySections({ score, language, sections })];
  const named = sections.map((section, i) => `${withArticle(section)} (${i === 0 ? barsInWords(score, section, language) : numbersInWords(score, section)})`);
  const written = sections.map((section) => section.index);
  const repeats = played.length !== written.length && played.length <= MOST_PLAYED ? `; played ${played.map((index) => sections[index]).flatMap((one) => (one === undefined ? [] : [one.name])).join(' ')}` : '';
  return [say(`Form: ${listInWords(named)}${repeats}.`, sections.map(({ fromBar, toBar }) => ({ fromBar, toBar })), 9)];
}

/** "an introduction", "a coda", "A'". */
function withArticle(section: Section): string {
  if (section.role === 'introduction') return 'an introduction';
  return section.role === 'coda' ? 'a coda' : section.name;
}

/** For a long piece: how many sections, and where the first one comes back. */
function manySections({ score, language, sections }: Pick<NotesGround, 'score' | 'language'> & { readonly sections: readonly Section[] }): Candidate {
  const first = sections.find((section) => section.role === 'section');
  const returns = sections.filter((section) => first !== undefined && section.returnOf === first.index);
  const back = returns.length === 0 ? '' : `; ${first?.letter ?? ''} comes back in ${spansInWords(score, spansOf(returns.map((section) => section.fromBar)), language)}`;
  const starts = spansInWords(score, sections.slice(0, 6).map(({ fromBar }) => ({ fromBar, toBar: fromBar })), language);
  return say(`${sentenceCase(countInWords(sections.length))} sections, the first of which begin in ${starts}${back}.`, [wholePiece(score)], 9);
}

/** What each return is like; exact ones together, and those varied throughout. */
function returnSentences(ground: NotesGround): readonly Candidate[] {
  const returns = ground.form.sections.filter((section) => section.returnOf !== null && section.role === 'section');
  const exact = returns.filter((section) => section.variant === 0);
  const free = returns.filter((section) => isVariation(section));
  const varied = returns.filter((section) => section.variant > 0 && section.changes.length > 0 && !isVariation(section));
  return [
    ...(exact.length === 0 ? [] : [say(`${backInWords(ground, exact, 'unchanged')}.`, exact, 7)]),
    ...(free.length === 0 ? [] : [say(`${backInWords(ground, free, 'varied throughout')}.`, free, 7.5)]),
    ...varied.slice(0, MOST_RETURNS).map((section) => variedReturn(ground, section)),
  ];
}

/** A return in which every bar is written anew. */
function isVariation({ changes }: Section): boolean {
  return changes.some((change) => change.kind === 'throughout') && changes.every((change) => change.kind === 'throughout' || change.kind === 'transposed');
}

/** "A comes back varied throughout in bars 19 and 37, B in bar 27". */
function backInWords({ score, language }: NotesGround, sections: readonly Section[], how: string): string {
  const letters = [...new Set(sections.map((section) => section.letter))];
  const clauses = letters.map((letter, i) => {
    const starts = sections.filter((section) => section.letter === letter).map((section) => ({ fromBar: section.fromBar, toBar: section.fromBar }));
    return `${letter}${i === 0 ? ` comes back ${how}` : ''} in ${spansInWords(score, starts, language)}`;
  });
  return listInWords(clauses);
}

/** "A comes back in bar 17: the right hand differs in bars 18–20, and it is one bar shorter." */
function variedReturn(ground: NotesGround, section: Section): Candidate {
  const { score, language } = ground;
  const changes = section.changes.map((change) => changeInWords(ground, section, change));
  return say(`${section.letter} comes back in ${word('bar', language)} ${barNumber(score, section.fromBar)}: ${listInWords(changes)}.`, [section], 8);
}

/** One change as a clause. */
function changeInWords({ score, language }: NotesGround, section: Section, change: Change): string {
  const where = barsInWords(score, change, language);
  switch (change.kind) {
    case 'close': return `the close differs (${where})`;
    case 'opening': return `the opening differs (${where})`;
    case 'rightHand': return `the right hand ${densityInWords(change.amount)} in ${where}`;
    case 'leftHand': return `the left hand ${densityInWords(change.amount)} in ${where}`;
    case 'throughout': return `it is varied in ${where}`;
    case 'middle': return `${where} ${change.fromBar === change.toBar ? 'differs' : 'differ'}`;
    case 'leaves': return `from ${word('bar', language)} ${barNumber(score, change.fromBar)} on the music goes its own way`;
    case 'transposed': return `it lies ${intervalInWords(change.amount)}`;
    case 'shorter': return change.amount > section.lengthBars ? `only ${countInWords(section.lengthBars)} ${word(section.lengthBars === 1 ? 'bar' : 'bars', language)} of it come` : `it is ${countInWords(change.amount)} ${word(change.amount === 1 ? 'bar' : 'bars', language)} shorter`;
    case 'longer': return `it is ${countInWords(change.amount)} ${word(change.amount === 1 ? 'bar' : 'bars', language)} longer`;
  }
}

/** What a hand does otherwise. */
function densityInWords(amount: number): string {
  if (amount === 0) return 'differs';
  return amount > 0 ? 'has notes added' : 'has fewer notes';
}

const INTERVALS = ['', 'a semitone', 'a tone', 'a minor third', 'a major third', 'a fourth', 'an augmented fourth', 'a fifth', 'a minor sixth', 'a major sixth', 'a minor seventh', 'a major seventh'];

/** "a fourth higher", "an octave lower", for semitones other than 0. */
export function intervalInWords(semitones: number): string {
  const size = Math.abs(semitones);
  const octave = size >= 12 ? 'an octave' : '';
  const rest = INTERVALS[size % 12] ?? '';
  const both = [octave, rest].filter((part) => part !== '').join(' and ');
  return `${both} ${semitones > 0 ? 'higher' : 'lower'}`;
}
