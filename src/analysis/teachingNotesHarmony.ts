/** Where the harmony goes, in sentences: keys, chords from outside of the key, cadences, the close. */
import { countInWords, listInWords, sentenceCase, word, type Language } from '../base/index.js';
import type { Cadence, CadenceKind, Harmony, KeySpan } from '../harmony/index.js';
import { barAtTick, type Score } from '../score/index.js';
import { chordInWords, chordOverBass, keyInWords, noteInWords } from './names.js';
import { hasKeys } from './teachingNotesTonality.js';
import { barNumber, spansInWords, spansOf } from './teachingNotesBars.js';
import { say, type Candidate, type NotesGround } from './teachingNotesGround.js';
import type { BarSpan } from './teachingNotesTypes.js';

/** A key that is left after fewer crotchets is a colour, not a goal; `<`. */
const LEAST_KEY_QUARTERS = 6;

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
  const inKeys = hasKeys(ground) ? [...keyPath(ground), ...specialChords(ground), ...chordsFromOutside(ground), ...borrowedChords(ground), ...cadenceSentence(ground)] : [];
  return [...inKeys, ...closing(ground)];
}

/** "It goes to C major (bars 9–11) and D minor (13–15)." */
function keyPath(ground: NotesGround): readonly Candidate[] {
  const { score, harmony, language } = ground;
  const home = harmony.globalKey;
  if (home === null) return [];
  const away = harmony.keys.filter((key) => !(key.tonic === home.tonic && key.mode === home.mode) && key.toTick - key.fromTick >= LEAST_KEY_QUARTERS * score.ticksPerQuarter);
  if (away.length === 0) return [];
  const names = [...new Set(away.map(keyInWords))];
  const named = names.slice(0, MOST_KEYS).map((name, i) => `${name} (${inNumbers(spansInWords(score, away.filter((key) => keyInWords(key) === name).map((key) => spanOf(score, key)), language), i, language)})`);
  const how = names.length > MOST_KEYS ? `It goes through ${countInWords(names.length)} keys, among them` : 'It goes to';
  return [say(`${how} ${listInWords(named)}.`, away.map((key) => spanOf(score, key)), 8)];
}

/** "bars 9–14" the first time, then "13–15": the word is said once in a list. */
function inNumbers(bars: string, place: number, language: Language): string {
  return place === 0 ? bars : bars.replace(new RegExp(`^${word('bars', language)}? `), '').replace(new RegExp(`^${word('bar', language)} `), '');
}

/** The bars of a stretch of ticks. */
function spanOf(score: Score, { fromTick, toTick }: Pick<KeySpan, 'fromTick' | 'toTick'>): BarSpan {
  return { fromBar: barAtTick(score, fromTick).barIndex, toBar: barAtTick(score, Math.max(fromTick, toTick - 1)).barIndex };
}

/** Chords with a name of their own. */
const SPECIAL: readonly { readonly name: string; readonly test: (harmony: Harmony) => boolean; readonly hint: string }[] = [
  { name: 'the flattened supertonic in first inversion (Neapolitan sixth)', test: (harmony) => harmony.degree === 'N6', hint: '' },
  { name: 'the flattened supertonic in root position', test: (harmony) => harmony.degree === 'N', hint: '' },
  { name: 'an augmented sixth', test: (harmony) => ['italianSixth', 'germanSixth', 'frenchSixth'].includes(harmony.quality), hint: ', whose outer notes want to part to an octave' },
];

/** "Bar 12 has an augmented sixth, …" */
function specialChords({ score, harmony, language }: NotesGround): readonly Candidate[] {
  return SPECIAL.flatMap(({ name, test, hint }) => {
    const found = harmony.harmonies.filter((one) => test(one) && one.confidence >= SURE_OF_CHORD);
    if (found.length === 0) return [];
    const spans = spansOf(found.map((one) => one.barIndex));
    const chords = [...new Set(found.map(chordOverBass))];
    const chord = chords.length > 1 || chords[0]?.startsWith('the ') === true ? '' : `, ${chords[0] ?? ''},`;
    return [say(`${sentenceCase(name)}${chord} comes in ${spansInWords(score, spans, language)}${hint}.`, spans, 7.5)];
  });
}

/** "Borrowed from the minor key: D flat minor (bar 27)." */
function borrowedChords({ score, harmony, language }: NotesGround): readonly Candidate[] {
  const found = harmony.harmonies.filter((one) => one.borrowed && one.function !== 'appliedDominant' && BORROWED.test(one.degree) && one.confidence >= SURE_OF_CHORD);
  const names = [...new Set(found.map(chordInWords))];
  if (names.length === 0 || names.length > MOST_CHORDS) return [];
  const clauses = names.map((name) => {
    const spans = spansOf(found.filter((one) => chordInWords(one) === name).map((one) => one.barIndex));
    return `${name} (${spansInWords(score, spans, language)})`;
  });
  return [say(`Borrowed from the minor: ${listInWords(clauses)}.`, spansOf(found.map((one) => one.barIndex)), 6.5)];
}

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

/** The plain cadences of a kind that close phrases. */
function phraseCadences({ harmony, form }: NotesGround, kind: CadenceKind): readonly Cadence[] {
  const ends = new Set(form.phrases.map((phrase) => phrase.to.tick));
  return harmony.cadences.filter((cadence) => cadence.kind === kind && ends.has(cadence.tick) && isPlain(harmony.harmonies, cadence));
}

/** Whether a cadence is beyond dispute: a perfect one has its dominant in root position, too. */
function isPlain(harmonies: readonly Harmony[], { tick, kind }: Cadence): boolean {
  const at = harmonies.findIndex((one) => one.fromTick === tick);
  const before = harmonies[at - 1];
  return kind !== 'perfect' || (before !== undefined && before.inversion === 0 && before.function === 'dominant');
}

/** "Perfect cadences in bars 8 and 27, imperfect ones in 4 and 16." */
function cadenceSentence(ground: NotesGround): readonly Candidate[] {
  const { score, language } = ground;
  const kinds = (['perfect', 'imperfect', 'interrupted', 'plagal'] as const).flatMap((kind) => {
    const bars = phraseCadences(ground, kind).map((cadence) => cadence.barIndex);
    return bars.length === 0 || bars.length > MOST_CADENCES ? [] : [{ kind, bars }];
  });
  if (kinds.length === 0) return [];
  const clauses = kinds.map(({ kind, bars }) => {
    const single = bars.map((bar) => ({ fromBar: bar, toBar: bar }));
    const name = cadenceInWords(kind, language);
    return `${bars.length === 1 ? `${/^[aeiou]/.test(name) ? 'an' : 'a'} ${name}` : `${name}s`} in ${spansInWords(score, single, language)}`;
  });
  return [say(`${sentenceCase(listInWords(clauses))}.`, spansOf(kinds.flatMap(({ bars }) => bars)), 7)];
}

/** A cadence counts as the close within this many bars of the end. */
const CLOSING_BARS = 8;

/** "It closes with a perfect cadence in bar 29; "rit." is printed in bar 28", each where nothing else tells it. */
function closing(ground: NotesGround): readonly Candidate[] {
  const { score, harmony, language } = ground;
  const end = score.bars.length - 1;
  const last = hasKeys(ground) ? harmony.cadences[harmony.cadences.length - 1] : undefined;
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
