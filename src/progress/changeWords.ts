/** A change in words: where, which fault, and that it is gone or new. */
import { whereInWords, type Aspect, type FoundPlace, type JudgeInput, type Observation } from '../judge/index.js';
import type { Direction } from './types.js';

/** A fault by name, at one place and at several. */
type Names = readonly [one: string, several: string];

/** Names that are the same for one place and for several; those in the plural end so. */
function alike(name: string): Names {
  return [name, name];
}

/** Faults by their kind. */
const NAMES: Readonly<Record<string, Names>> = {
  wrong: ['the wrong note is', 'the wrong notes are'],
  octave: ['the note in the wrong octave is', 'the notes in the wrong octave are'],
  missed: ['the missing note is', 'the missing notes are'],
  added: ['the added note is', 'the added notes are'],
  goingBack: alike('the going back is'),
  barsLeftOut: ['the gap in the bars is', 'the gaps in the bars are'],
  repeatLeftOut: alike('leaving out the repeat is'),
  evenDots: alike('the even dotted pairs are'),
  tripletDots: alike('the dotted pairs in triplet rhythm are'),
  looseDoubleDots: alike('the loose double dots are'),
  straight: alike('the straight playing where swing is asked is'),
  longGrace: ['the long crushed note is', 'the long crushed notes are'],
  longUpbeat: alike('the long upbeat is'),
  stoppedTrill: ['the trill that stops is', 'the trills that stop are'],
  unevenTrill: ['the uneven trill is', 'the uneven trills are'],
  unevenTurn: ['the uneven turn is', 'the uneven turns are'],
  evenSnap: alike('the even short-long pairs are'),
  overDotted: alike('the sharpened dotted pairs are'),
  quarteredTriplets: alike('the squared triplets are'),
  squared: alike('the squared cross-rhythm is'),
  evenLongShort: alike('the even long and short notes are'),
  halved: alike('the notes at half their length are'),
  doubled: alike('the notes at twice their length are'),
  longShort: alike('the limping is'),
  shortLong: alike('the limping is'),
  longNoteCut: ['the cut long note is', 'the cut long notes are'],
  longNoteDoubled: ['the overlong note is', 'the overlong notes are'],
  restSwallowed: ['the swallowed rest is', 'the swallowed rests are'],
  entryLate: ['the late entry is', 'the late entries are'],
  beatAdded: ['the added beat is', 'the added beats are'],
  raggedChords: alike('the ragged chords are'),
  unevenRun: ['the uneven run is', 'the uneven runs are'],
  behind: alike('the lag behind the other hand is'),
  hesitation: ['the wait is', 'the waits are'],
  stop: ['the stop is', 'the stops are'],
  rushing: alike('the hurrying is'),
  dragging: alike('the dragging is'),
  unsteady: alike('the uneven beat is'),
  creepsUp: alike('the creeping up of the tempo is'),
  creepsDown: alike('the sinking of the tempo is'),
  slowerWhereHard: alike('the slowing where it gets hard is'),
  slow: alike('the slow tempo is'),
  slowPractice: alike('the slow tempo for practice is'),
  fast: alike('the quick tempo is'),
  notSlower: alike('the missing slowing is'),
  notQuicker: alike('the missing quickening is'),
  noRitardando: ['the missing ritardando is', 'the missing ritardandi are'],
  noClosingRitardando: alike('the missing ritardando at the end is'),
  noAccelerando: alike('the missing accelerando is'),
  shortNote: ['the long note let go too soon is', 'the long notes let go too soon are'],
  tieBroken: ['the broken tie is', 'the broken ties are'],
  tieStruckAgain: ['the tied note played again is', 'the tied notes played again are'],
  innerLetGo: alike('the letting go inside the chords is'),
  pedalInRest: ['the pedal through the rest is', 'the pedal through the rests is'],
  filledRest: ['the filled rest is', 'the filled rests are'],
  staccatoLong: alike('the long dots are'),
  slurBroken: ['the break under the slur is', 'the breaks under the slurs are'],
  slurEndJoined: ['the slur run on is', 'the slurs run on are'],
  portatoShort: alike('the short portato is'),
  portatoJoined: alike('the portato that runs together is'),
  tenutoShort: alike('the letting go of notes with a line is'),
  figureUnlike: alike('the other touch for one figure is'),
  noBreath: ['the missing breath is', 'the missing breaths are'],
  chordsShort: alike('the short chords are'),
  blurred: ['the blurred change of pedal is', 'the blurred changes of pedal are'],
  caught: ['the old sound caught by the pedal is', 'the old sounds caught by the pedal are'],
  smeared: alike('the smear under the pedal is'),
  gap: ['the gap in the pedal is', 'the gaps in the pedal are'],
  bassNotCaught: ['the lost bass is', 'the lost basses are'],
  neverLifted: alike('the pedal that stays down is'),
  notUsed: alike('the missing pedal is'),
  notDry: alike('the pedal where none is asked is'),
  notRinging: alike('the pedal lifted too soon is'),
  unaCorda: alike('the missing soft pedal is'),
  treCorde: alike('the soft pedal kept too long is'),
  withTheChord: alike('the foot going down with the chord is'),
  changeNotMade: ['the missing contrast is', 'the missing contrasts are'],
  hairpinNotMade: ['the missing hairpin is', 'the missing hairpins are'],
  oneLevel: alike('the one level throughout is'),
  sticksOut: ['the note that stands out is', 'the notes that stand out are'],
  accentNotHeard: ['the missing accent is', 'the missing accents are'],
  didNotSpeak: ['the note that did not speak is', 'the notes that did not speak are'],
  splitNote: ['the split note is', 'the split notes are'],
  endBumped: ['the bumped end is', 'the bumped ends are'],
  phrasesFlat: alike('the flat phrasing is'),
  tuneCovered: alike('the accompaniment over the tune is'),
  coveredThroughout: alike('the accompaniment over the tune is'),
  handsAlike: alike('the tune that does not lead is'),
  chordsNotVoiced: alike('the chords without a top are'),
};

/** What a fault of an aspect is called whose kind has no name here. */
const OF_ASPECT: Readonly<Record<Aspect, string>> = {
  notes: 'the slip is', route: 'the detour is', rhythm: 'the fault of rhythm is', pulse: 'the fault of pulse is', tempo: 'the fault of tempo is', lengths: 'the fault of length is',
  touch: 'the fault of touch is', pedal: 'the fault of the pedal is', dynamics: 'the fault of loud and soft is', balance: 'the fault of balance is',
};

/** "Bar 11: the wait is gone.", "Right hand, bars 5–8: the even dotted pairs are new." */
export function changeInWords(input: JudgeInput, { observation: { aspect, kind, hand }, places, direction }: Changed): string {
  const names = NAMES[kind] ?? alike(OF_ASPECT[aspect]);
  const several = places.length > 1 || (aspect === 'notes' && places.some(({ notes }) => notes.length > 1));
  return `${whereInWords(input, hand, places)}: ${names[several ? 1 : 0]} ${direction === 'better' ? 'gone' : 'new'}.`;
}

/** A fault that is gone or new, and at which of its places. */
export interface Changed {
  readonly observation: Observation;
  readonly places: readonly FoundPlace[];
  readonly direction: Direction;
}
