/** Where the harmony goes, in sentences: keys, chords from outside of the key, cadences, the close. */
import { countInWords, listInWords, sentenceCase, word, type Language } from '../base/index.js';
import type { Cadence, CadenceKind, Harmony, KeySpan } from '../harmony/index.js';
import { barAtTick, type Score } from '../score/index.js';
import { chordInWords, chordOverBass, keyInWords } from './names.js';
import { noteInWords } from './noteNames.js';
import { hasChords, hasKeys } from './teachingNotesTonality.js';
import { barNumber, spansInWords, spansOf } from './teachingNotesBars.js';
import { say, wholePiece, type Candidate, type NotesGround } from './teachingNotesGround.js';
import type { BarSpan } from './teachingNotesTypes.js';

/** A key that is left after fewer crotchets is a colour, not a goal; `<`. */
const LEAST_KEY_QUARTERS = 6;

/** Nor is one that holds for a smaller share of the piece; `<`. */
const LEAST_KEY_SHARE = 0.02;

/** Below this a stretch has no key to speak of; 0-1, `<`. */
const SURE_OF_KEY = 0.3;

/** Keys are named up to this many stretches. */
const MOST_KEYS = 5;

/** Chords told in one sentence. */
const MOST_CHORDS = 4;

/** Below this a chord is not sure enough to be named as special; `<`. */
const SURE_OF_CHORD = 0.6;

/** Cadences of one kind are listed up to this many. */
const MOST_CADENCES = 6;

/** Where the keys go, special chords, cadences and the close. */
export function harmonyCandidates(ground: NotesGround): readonly Candidate[] {
  const keys = hasKeys(ground) ? keyPath(ground) : [];
  const chords = hasChords(ground) ? [...specialChords(ground), ...chordsFromOutside(ground), ...borrowedChords(ground), ...cadenceSentence(ground)] : [];
  return [...keys, ...chords, ...closing(ground)];
}

/** "It goes to C major (bars 9–11) and D minor (13–15)." */
function keyPath(ground: NotesGround): readonly Candidate[] {
  const { score, harmony, language } = ground;
  const home = harmony.globalKey;
  if (home === null) return [];
  const end = score.bars.reduce((sum, bar) => sum + bar.lengthTicks, 0);
  const least = Math.max(LEAST_KEY_QUARTERS * score.ticksPerQuarter, LEAST_KEY_SHARE * end);
  const away = harmony.keys.filter((key) => !(key.tonic === home.tonic && key.mode === home.mode) && key.confidence >= SURE_OF_KEY && key.toTick - key.fromTick >= least);
  const names = [...new Set(away.map(keyInWords))];
  if (names.length === 0) return [];
  const named = longestKeys(away, names).map((name, i) => `${name} (${inNumbers(spansInWords(score, away.filter((key) => keyInWords(key) === name).map((key) => spanOf(score, key)), language), i, language)})`);
  const verb = away[0] === harmony.keys[0] ? 'stands in' : 'goes to';
  const how = names.length > MOST_KEYS ? `It goes through ${countInWords(names.length)} keys, longest through` : `It ${verb}`;
  return [say(`${how} ${listInWords(named)}.`, away.map((key) => spanOf(score, key)), 8)];
}

/** The keys that hold longest, in order of their coming. */
function longestKeys(away: readonly KeySpan[], names: readonly string[]): readonly string[] {
  const length = (name: string): number => away.filter((key) => keyInWords(key) === name).reduce((sum, key) => sum + key.toTick - key.fromTick, 0);
  const kept = new Set(names.toSorted((a, b) => length(b) - length(a)).slice(0, MOST_KEYS));
  return names.filter((name) => kept.has(name));
}

/** "bars 9–14" the first time, then "13–15": the word is said once in a list. */
function inNumbers(bars: string, place: number, language: Language): string {
  return place === 0 ? bars : bars.replace(new RegExp(`^${word('bars', language)}? `), '').replace(new RegExp(`^${word('bar', language)} `), '');
}

/** The bars of a stretch of ticks. */
function spanOf(score: Score, { fromTick, toTick }: Pick<KeySpan, 'fromTick' | 'toTick'>): BarSpan {
  return { fromBar: barAtTick(score, fromTick).barIndex, toBar: barAtTick(score, Math.max(fromTick, toTick - 1)).barIndex };
}

/** The three augmented sixths. */
const AUGMENTED_SIXTHS: ReadonlySet<string> = new Set(['italianSixth', 'germanSixth', 'frenchSixth']);

/** Chords with a name of their own. */
const SPECIAL: readonly { readonly name: string; readonly test: (harmony: Harmony) => boolean; readonly hint: string }[] = [
  { name: 'the flattened supertonic in first inversion (Neapolitan sixth)', test: (harmony) => harmony.degree === 'N6', hint: '' },
  { name: 'the flattened supertonic in root position', test: (harmony) => harmony.degree === 'N', hint: '' },
  { name: 'an augmented sixth', test: (harmony) => AUGMENTED_SIXTHS.has(harmony.quality), hint: ', whose outer notes want to part to an octave' },
];

/** "Bar 12 has an augmented sixth, …" */
function specialChords({ score, harmony, language }: NotesGround): readonly Candidate[] {
  return SPECIAL.flatMap(({ name, test, hint }) => {
    const found = harmony.harmonies.filter((one, i) => test(one) && one.confidence >= SURE_OF_CHORD && !one.rootName.includes('bb') && goesToDominant(harmony.harmonies, i));
    if (found.length === 0) return [];
    const spans = spansOf(found.map((one) => one.barIndex));
    const chords = [...new Set(found.map(chordOverBass))];
    const chord = chords.length > 1 || chords[0]?.startsWith('the ') === true ? '' : `, ${chords[0] ?? ''},`;
    return [say(`${sentenceCase(name)}${chord} comes in ${spansInWords(score, spans, language)}${hint}.`, spans, 7.5)];
  });
}

/** Whether a chromatic chord does what it is named for: the dominant comes next, or after one chord more; an augmented sixth's bass goes down a semitone. */
function goesToDominant(harmonies: readonly Harmony[], i: number): boolean {
  const [here, next, after] = [harmonies[i], harmonies[i + 1], harmonies[i + 2]];
  if (here === undefined || next === undefined) return false;
  if (here.bass !== null && next.bass !== null && (here.bass + 11) % 12 === next.bass && AUGMENTED_SIXTHS.has(here.quality)) return true;
  return next.function === 'dominant' || (after?.function === 'dominant' && next.function !== 'tonic');
}

/** "Borrowed from the minor key: D flat minor (bar 27)." */
function borrowedChords({ score, harmony, language }: NotesGround): readonly Candidate[] {
  const atHome = (tick: number): boolean => {
    const key = harmony.keys.findLast((span) => span.fromTick <= tick);
    return key !== undefined && key.tonic === harmony.globalKey?.tonic && key.mode === harmony.globalKey.mode;
  };
  const found = harmony.harmonies.filter((one) => one.borrowed && atHome(one.fromTick) && one.function !== 'appliedDominant' && BORROWED.test(one.degree) && one.confidence >= SURE_OF_BORROWED);
  const names = [...new Set(found.map(chordInWords))];
  if (names.length === 0 || names.length > MOST_CHORDS) return [];
  const clauses = names.map((name) => {
    const spans = spansOf(found.filter((one) => chordInWords(one) === name).map((one) => one.barIndex));
    return `${name} (${spansInWords(score, spans, language)})`;
  });
  return [say(`Borrowed from the minor: ${listInWords(clauses)}.`, spansOf(found.map((one) => one.barIndex)), 6.5)];
}

/** A chord whose flattened third is only a colour in passing is not borrowed; `<`. */
const SURE_OF_BORROWED = 0.85;

/** Borrowed chords that an ear notices: the minor tonic and subdominant, the flattened mediant and submediant, the darkened supertonic. */
const BORROWED = /^(i|iv|bIII|bVI|iiø|iio)(6|64|7|65|43|42)?$/;

/** "From outside of the key: A seventh in bar 15, the dominant of D." */
function chordsFromOutside({ score, harmony, language }: NotesGround): readonly Candidate[] {
  const applied = harmony.harmonies.flatMap((one, i) => {
    const next = harmony.harmonies[i + 1];
    const resolves = next !== undefined && one.root !== null && next.root !== null && (one.root + 5) % 12 === next.root;
    const home = next?.root === harmony.globalKey?.tonic;
    const chosen = !home && one.function === 'appliedDominant' && one.confidence >= SURE_OF_CHORD && resolves && /^V/.test(one.degree);
    return chosen ? [{ harmony: one, name: `${chordInWords(one)}, the dominant of ${noteInWords(next.rootName)}` }] : [];
  });
  const names = [...new Set(applied.map((one) => one.name))].slice(0, MOST_CHORDS);
  if (names.length === 0) return [];
  const clauses = names.map((name) => {
    const spans = spansOf(applied.filter((one) => one.name === name).map((one) => one.harmony.barIndex));
    return `${name} (${spansInWords(score, spans, language)})`;
  });
  return [say(`${word('secondaryDominant', language) === 'applied dominant' ? 'Applied' : 'Secondary'} dominants: ${clauses.join('; ')}.`, spansOf(applied.map((one) => one.harmony.barIndex)), 6)];
}

/** Names of cadences. */
const CADENCES = { perfect: 'perfectCadence', imperfect: 'imperfectCadence', interrupted: 'interruptedCadence', plagal: 'plagalCadence' } as const satisfies Record<CadenceKind, string>;

/** "perfect cadence". */
export function cadenceInWords(kind: CadenceKind, language: Language): string {
  return word(CADENCES[kind], language);
}

/** Whether more perfect cadences come than can be listed, and at least half of all phrases close so. */
function mostPerfect(ground: NotesGround): boolean {
  const count = phraseCadences(ground, 'perfect').length;
  return count > MOST_CADENCES && 2 * count >= ground.form.phrases.length;
}

/** The plain cadences of a kind that close phrases. */
function phraseCadences({ score, harmony, form }: NotesGround, kind: CadenceKind): readonly Cadence[] {
  // a plagal turn is a cadence where something ends
  const closes = (bar: number): boolean => score.bars.length - bar <= CLOSING_BARS || form.sections.some((section) => section.toBar - bar <= 1 && section.toBar >= bar);
  const ends = new Set(form.phrases.map((phrase) => phrase.to.tick));
  return harmony.cadences.filter((cadence) => cadence.kind === kind && ends.has(cadence.tick) && isPlain(harmony.harmonies, cadence) && (kind !== 'plagal' || (closes(cadence.barIndex) && isLong(score, harmony.harmonies, cadence))));
}

/** Whether the harmony before a cadence lasts half a bar or more: a shorter subdominant is a turn of the tonic. */
function isLong(score: Score, harmonies: readonly Harmony[], { tick, barIndex }: Cadence): boolean {
  const before = harmonies[harmonies.findIndex((one) => one.fromTick === tick) - 1];
  return before !== undefined && 2 * (before.toTick - before.fromTick) >= (score.bars[barIndex]?.nominalTicks ?? 0);
}

/** Whether a cadence is beyond dispute: a perfect one has its dominant in root position, too, an interrupted one a plain triad. */
export function isPlain(harmonies: readonly Harmony[], { tick, kind }: Cadence): boolean {
  const at = harmonies.findIndex((one) => one.fromTick === tick);
  const before = harmonies[at - 1];
  const here = harmonies[at];
  if (kind === 'perfect') return before !== undefined && before.inversion === 0 && before.function === 'dominant';
  // a submediant with a seventh is on its way, not a turn aside
  return kind !== 'interrupted' || here?.quality === 'minor' || here?.quality === 'major';
}

/** "Perfect cadences in bars 8 and 27, imperfect ones in 4 and 16." */
function cadenceSentence(ground: NotesGround): readonly Candidate[] {
  const { score, language } = ground;
  const most = mostPerfect(ground) ? `Most phrases close with ${/^[aeiou]/.test(cadenceInWords('perfect', language)) ? 'an' : 'a'} ${cadenceInWords('perfect', language)}` : null;
  const kinds = (['perfect', 'imperfect', 'interrupted', 'plagal'] as const).flatMap((kind) => {
    const bars = phraseCadences(ground, kind).map((cadence) => cadence.barIndex);
    return bars.length === 0 || bars.length > MOST_CADENCES ? [] : [{ kind, bars }];
  });
  if (kinds.length === 0) return most === null ? [] : [say(`${most}.`, [wholePiece(score)], 6)];
  const clauses = kinds.map(({ kind, bars }) => {
    const single = bars.map((bar) => ({ fromBar: bar, toBar: bar }));
    const name = cadenceInWords(kind, language);
    return `${bars.length === 1 ? `${/^[aeiou]/.test(name) ? 'an' : 'a'} ${name}` : `${name}s`} in ${spansInWords(score, single, language)}`;
  });
  return [say(`${most === null ? '' : `${most}; `}${most === null ? sentenceCase(listInWords(clauses)) : listInWords(clauses)}.`, spansOf(kinds.flatMap(({ bars }) => bars)), 7)];
}

/** A cadence counts as the close within this many bars of the end. */
const CLOSING_BARS = 8;

/** "It closes with a perfect cadence in bar 29; "rit." is printed in bar 28", each where nothing else tells it. */
function closing(ground: NotesGround): readonly Candidate[] {
  const { score, harmony, language } = ground;
  const end = score.bars.length - 1;
  const last = hasChords(ground) ? harmony.cadences[harmony.cadences.length - 1] : undefined;
  const listed = last !== undefined && phraseCadences(ground, last.kind).length <= MOST_CADENCES;
  const close = last !== undefined && !listed && (last.kind === 'perfect' || last.kind === 'plagal') && end - last.barIndex < CLOSING_BARS ? last : null;
  const slowing = ground.told.has('closingRitardando') ? undefined : score.directions.find((mark) => (mark.kind === 'tempo' || mark.kind === 'words') && /^(poco |molto )*(rit|rall|allarg|slent|smorz|morendo|calando)/i.test(mark.text) && end - mark.barIndex < CLOSING_BARS);
  const clauses = [
    ...(close === null ? [] : [`it closes with ${/^[aeiou]/.test(cadenceInWords(close.kind, language)) ? 'an' : 'a'} ${cadenceInWords(close.kind, language)} in ${word('bar', language)} ${barNumber(score, close.barIndex)}`]),
    ...(slowing === undefined ? [] : [`"${slowing.text}" is printed in ${word('bar', language)} ${barNumber(score, slowing.barIndex)}`]),
  ];
  if (clauses.length === 0) return [];
  return [say(`${sentenceCase(clauses.join('; '))}.`, [{ fromBar: Math.min(close?.barIndex ?? end, slowing?.barIndex ?? end), toBar: end }], 5)];
}
