/**
 * What each kind of remark rests on, in words: what was measured, what it was held against, and why it is said from there on. The judges decide
 * by these rules; here they are told. A table, by aspect and kind.
 */
import type { Aspect } from '../judge/index.js';

/** The ground of one kind of remark. */
export interface WhyWords {
  /** What was measured, as a clause: "how long …". */
  readonly measured: string;
  /** What it was held against. */
  readonly against: string;
  /** Where the limit comes from. */
  readonly source: string;
}

/** One entry. */
function why(measured: string, against: string, source: string): WhyWords {
  return { measured, against, source };
}

/** Sources that stand behind several kinds. */
const TEMPO_HEARD = 'a change of tempo is heard from 3 to 6 % on (Drake and Botte 1993); within a tenth it passes as the same (common practice)';
const LEVEL_HEARD = 'under 3 velocity units, steps in which the instrument counts how hard a key is struck, nobody hears a difference';
const SLIP = 'every note that differs on the last try is counted; one that a later try put right weighs less (our own rule)';
const MANUALS = 'staccato lasts half of its value, portato three quarters, tenuto all of it (manuals, common practice)';
const BLUR_SOURCE = 'what is left of the old sound by its strength and its fading, and how rough it is beside the new one; low notes weigh more (Hutchinson and Knopoff 1978; Plomp and Levelt 1965)';
const OWN_RULE = 'our own rule';

const WAIT = why('how long the playing waits, beyond the beat', 'this player’s other bars, and the same place in other passes and tries; ends of phrases, pauses and ritardandi may wait', 'from a third of a beat and a quarter of a second on a wait inside a phrase is heard as one (common practice)');
const RUN = why('how far the tempo leaves where it was, over three bars or more', 'the bars around, and what this player does elsewhere', TEMPO_HEARD);
const CREEP = why('how far the last third goes in another tempo than the first', 'the same mark of tempo, and how much the bars differ among themselves', TEMPO_HEARD);
const BEATS = why('by how many beats a note or rest is too short or too long', 'the other hand, which counts on, or the tempo before and after', 'over half a beat is more than rubato takes (our own rule)');
const LENGTH = why('how many times its written length a note lasts', 'its neighbours of other lengths in the same bar', OWN_RULE);
const PAIRS = why('the first note of a pair to the second, from onset to onset', 'the written lengths', 'good players’ bars stay below three to two where equal notes are written (measured in the open recordings)');
const DOT = why('the long note to the short one, from onset to onset', 'three to one as written, or seven to one for a double dot', 'under two to one a dot is heard as a triplet, near one to one as even (common practice)');
const SLIPS_OF = (what: string): WhyWords => why(what, 'the score, note by note, on the last try', SLIP);
const MARK = why('how far the level goes from before the mark to after it', 'what this player makes of such marks elsewhere', `${LEVEL_HEARD}; a step from one mark to the next is about 5 (common practice)`);
const COVERED = why('how far the tune stands over its accompaniment', 'the notes that sound together with it', 'a tune usually stands 10 to 20 velocity units over its accompaniment (trade texts)');

/** Every kind that the judges know, by its aspect. */
export const WHY: Readonly<Record<Aspect, Readonly<Record<string, WhyWords>>>> = {
  notes: {
    wrong: SLIPS_OF('how many notes were struck in the place of others'),
    missed: SLIPS_OF('how many written notes were not struck'),
    added: SLIPS_OF('how many notes were struck that are not written'),
    octave: SLIPS_OF('how many notes were struck in another octave'),
  },
  route: {
    goingBack: why('how often the playing went back from here', 'a recording that goes through', 'once is practising; twice at one place says that it is not learned yet (common practice)'),
    repeatLeftOut: why('how many bars of a repeat were not played', 'the playing order as printed', 'it is a remark, not a fault'),
    barsLeftOut: why('how many bars were not played', 'the bars before and after, which were', OWN_RULE),
  },
  pulse: {
    hesitation: WAIT,
    stop: WAIT,
    rushing: RUN,
    dragging: RUN,
    creepsUp: CREEP,
    creepsDown: CREEP,
    unsteady: why('how far bars or beats jump off their neighbours', 'what this player does everywhere, so that a lilt and free playing pass', TEMPO_HEARD),
    slowerWhereHard: why('in how many of the hard bars the tempo drops', 'the bars around them', TEMPO_HEARD),
  },
  tempo: {
    slow: why('how far the tempo is from the mark', 'the metronome mark, or the range that the word stands for', 'within a tenth is as marked; under three quarters the character changes (common practice)'),
    fast: why('how far the tempo is from the mark', 'the metronome mark, or the range that the word stands for', 'within a tenth is as marked (common practice)'),
    slowPractice: why('how far the tempo is under the mark', 'the metronome mark, or the word', 'slow work starts at 50 to 60 % of the tempo (common practice); it is said, not blamed'),
    noClosingRitardando: why('how much slower the end becomes', 'the bars before the printed ritardando', 'a closing ritardando takes a fifth off (common practice); under 6 % none is heard (Drake and Botte 1993)'),
    noRitardando: why('how much slower the playing becomes', 'the bars before the printed ritardando', TEMPO_HEARD),
    noAccelerando: why('how much quicker the playing becomes', 'the bars before the printed accelerando', TEMPO_HEARD),
    notQuicker: why('how much quicker the new section goes', 'the section before', TEMPO_HEARD),
    notSlower: why('how much slower the new section goes', 'the section before', TEMPO_HEARD),
  },
  rhythm: {
    longNoteCut: BEATS, longNoteDoubled: BEATS, restSwallowed: BEATS, entryLate: BEATS, beatAdded: BEATS,
    halved: LENGTH, doubled: LENGTH,
    longUpbeat: why('how many times its length the upbeat lasts', 'the first bars', OWN_RULE),
    behind: why('how far one hand is behind the other, over several moments on end', 'what is usual with this player; a tune may lead by 20 to 30 ms (Goebl 2001), a left hand come first by 80', 'twice the 22 ms at which the order of two notes is heard three times in four'),
    squared: why('how often a stroke falls together with one of the other hand that it should come between', 'both hands’ own beats', OWN_RULE),
    evenDots: DOT, tripletDots: DOT, looseDoubleDots: DOT, evenSnap: DOT,
    overDotted: why('the long note to the short one, from onset to onset', 'three to one as written', 'it is told as a habit, not blamed'),
    longShort: PAIRS, shortLong: PAIRS, evenLongShort: PAIRS,
    straight: why('the first quaver to the second', 'the heading, which asks for swing: 1.3 to 3 to one', 'common practice'),
    quarteredTriplets: why('the share of a triplet that its longest note takes', 'a third', OWN_RULE),
    unevenRun: why('how much the distances in the run scatter', 'an even run, its lilt left out', 'nineteen of twenty runs of good players stay below 18 %, scales of professionals at 7 % (Jabusch 2006)'),
    unevenScale: why('how much the distances in the scale scatter', 'an even scale, its lilt left out', 'scales of professionals scatter by 7 % (Jabusch 2006)'),
    raggedChords: why('how far the notes of the chords are apart', 'chords that speak as one; rolled ones are left out', 'more than is ever heard as one (our own rule)'),
    longGrace: why('how long the small note with a stroke lasts', 'a crushed note', OWN_RULE),
    stoppedTrill: why('how long the longest wait in the trill is', 'its usual stroke', 'good players’ longest stay below 2.4 strokes (measured in the open recordings)'),
    unevenTurn: why('how long the longest note of the turn is', 'its other notes', 'good players’ longest stay below 2.4 strokes (measured in the open recordings)'),
    unevenTrill: why('how much the strokes of the trill scatter', 'an even trill, its lilt left out', 'as for runs (Jabusch 2006)'),
  },
  lengths: {
    shortNote: why('for how much of its length the note sounds, by key and pedal', 'the written length at the tempo of the place', 'silent for half of it or more, a long note is missed (our own rule)'),
    tieBroken: why('for how much of its length the tied note sounds', 'the written length at the tempo of the place', 'silence before the second note of the tie is reached breaks it'),
    innerLetGo: why('for how much of their length the inner notes sound', 'the outer notes of the same chord, which are held', OWN_RULE),
    tieStruckAgain: why('how often the tied note was struck again', 'the tie', 'a key that only comes back, far softer, does not count'),
    filledRest: why('how much of the rest keys stay down for', 'silence as written', OWN_RULE),
    pedalInRest: why('how much of the rest sounds on in the pedal', 'a rest for both hands without any pedal mark', OWN_RULE),
  },
  touch: {
    staccatoLong: why('for how much of their value notes with dots last', 'a dot: half of the value', MANUALS),
    portatoShort: why('for how much of their value portato notes last', 'portato: three quarters', MANUALS),
    portatoJoined: why('how many portato notes are joined on', 'portato: a little air between', MANUALS),
    tenutoShort: why('for how much of their value notes with a line last', 'tenuto: all of it', MANUALS),
    slurBroken: why('how far notes under a slur reach to the next one', 'the next note, and what this player joins elsewhere', 'gaps under 30 ms pass as legato; a third of the way silent breaks the line'),
    slurEndJoined: why('how many ends of two-note slurs are joined on', 'a lift at the end of each', 'teachers’ common practice'),
    noBreath: why('how often the line was joined over the breath', 'the printed breath mark', 'gaps under 30 ms pass as joined'),
    chordsShort: why('for how much of their value the long notes last', 'the next stroke', 'repeated notes need a gap, much less in long values (Bresin and Battel 2000)'),
    figureUnlike: why('how far the notes of the figure reach to the next', 'the same figure in the other hand, or where it returns', 'gaps under 30 ms pass as legato; a third of the way silent breaks the line'),
  },
  pedal: {
    blurred: why('how long the old notes clash with the new harmony', 'a clean change at the same place', BLUR_SOURCE),
    caught: why('how long the old notes that the pedal caught clash with the new harmony', 'this player’s own changes', BLUR_SOURCE),
    neverLifted: why('how long old notes clash at the worst change', 'a clean change at the same places', BLUR_SOURCE),
    withTheChord: why('how long old notes clash where the foot goes down with the chord', 'a foot that goes down after it', BLUR_SOURCE),
    smeared: why('how long notes foreign to the harmony ring on in it', 'the harmony they ring into', BLUR_SOURCE),
    gap: why('how long nothing sounds before the new chord', 'a line that is written without a rest', 'gaps of 30 ms pass as legato, and dampers take 0.1 to 0.2 s; ends of phrases may breathe'),
    bassNotCaught: why('how long after the key came up the foot went down', 'the bass that the pedal has to keep', 'half of the 0.2 to 0.3 s that a bass needs to fade (common practice)'),
    notUsed: why('how long the pedal is asked for and not used', 'the mark in the score, or your plan', OWN_RULE),
    notDry: why('how long the foot is down', 'the words in the score, or your plan, which want none', OWN_RULE),
    notRinging: why('how much of the ringing sound the lift takes away', 'the words in the score, or the plan, which let it ring', OWN_RULE),
    unaCorda: why('how long the soft pedal is asked for and not used', 'the words in the score', OWN_RULE),
    treCorde: why('how long the soft pedal stays down', 'the words in the score, which end it', OWN_RULE),
  },
  dynamics: {
    oneLevel: why('how far the playing goes between loud and soft', 'the marks of the score', LEVEL_HEARD),
    changeNotMade: MARK,
    hairpinNotMade: why('how far the level grows or fades under the hairpin', 'what this player makes of hairpins elsewhere', LEVEL_HEARD),
    accentNotHeard: why('how far the accented note stands out', 'its neighbours in the same hand', LEVEL_HEARD),
    sticksOut: why('how far the note stands over those around it', 'its own hand; accents, high points and landings may stand out', LEVEL_HEARD),
    didNotSpeak: why('how many soft notes did not sound', 'notes struck so softly elsewhere', 'a single one is a slip (our own rule)'),
    splitNote: why('how many neighbouring keys were struck along', 'single keys', 'a single one is a slip (our own rule)'),
    endBumped: why('how far the last note is struck harder than what leads to it', 'the phrase before it', LEVEL_HEARD),
    phrasesFlat: why('how far the phrases rise and fall', 'a phrase that has a high point', LEVEL_HEARD),
  },
  balance: {
    tuneCovered: COVERED, coveredThroughout: COVERED, handsAlike: COVERED,
    chordsNotVoiced: why('how far the top of the chords stands over the inner notes', 'a voiced chord', 'a chord’s top usually stands 5 to 10 over the inner notes (common practice)'),
  },
};
