/**
 * Textbook progressions in C major or A minor, block chords of a minim each ("bass upper notes; …"), with the roman
 * numerals that any harmony textbook gives them. Worked by hand.
 */

/** A progression and its degrees, one for each chord (a repeated degree stands once). */
export interface Progression {
  readonly name: string;
  readonly mode: 'major' | 'minor';
  readonly chords: string;
  readonly degrees: string;
}

const major = (name: string, chords: string, degrees: string): Progression => ({ name, mode: 'major', chords, degrees });
const minor = (name: string, chords: string, degrees: string): Progression => ({ name, mode: 'minor', chords, degrees });

export const PROGRESSIONS: readonly Progression[] = [
  major('primary triads', 'C3 E4 G4 C5; F3 F4 A4 C5; G3 D4 G4 B4; C3 E4 G4 C5', 'I IV V I'),
  major('dominant seventh', 'C3 E4 G4 C5; A2 E4 A4 C5; G2 F4 G4 B4; C3 E4 G4 C5', 'I vi V7 I'),
  major('supertonic in first inversion', 'C3 E4 G4 C5; F3 D4 A4 D5; G3 D4 G4 B4; C3 E4 G4 C5', 'I ii6 V I'),
  major('supertonic seventh in first inversion', 'C3 E4 G4 C5; F3 D4 A4 C5; G3 D4 G4 B4; C3 E4 G4 C5', 'I ii65 V I'),
  major('cadential six-four', 'C3 E4 G4 C5; F3 F4 A4 D5; G3 E4 G4 C5; G3 D4 G4 B4; C3 E4 G4 C5', 'I ii6 V(64) V I'),
  major('cadential six-four with seventh', 'C3 E4 G4 C5; F3 F4 A4 C5; G3 E4 G4 C5; G3 F4 G4 B4; C3 E4 G4 C5', 'I IV V(64) V7 I'),
  major('interrupted cadence', 'C3 E4 G4 C5; F3 F4 A4 C5; G3 D4 F4 B4; A3 C4 E4 C5', 'I IV V7 vi'),
  major('plagal cadence', 'C3 E4 G4 C5; G3 D4 G4 B4; C3 E4 G4 C5; F3 F4 A4 C5; C3 E4 G4 C5', 'I V I IV I'),
  major('dominant of the dominant', 'C3 E4 G4 C5; D3 F#4 A4 C5; G3 D4 G4 B4; C3 E4 G4 C5', 'I V7/V V I'),
  major('dominant of the dominant, inverted', 'C3 E4 G4 C5; F#3 D4 A4 C5; G3 D4 G4 B4; C3 E4 G4 C5', 'I V65/V V I'),
  major('dominant of the submediant', 'C3 E4 G4 C5; E3 D4 G#4 B4; A3 C4 E4 A4; D3 F4 A4 D5; G3 D4 F4 B4; C3 E4 G4 C5', 'I V7/vi vi ii V7 I'),
  major('dominant of the supertonic', 'C3 E4 G4 C5; A2 E4 G4 C#5; D3 F4 A4 D5; G2 D4 F4 B4; C3 E4 G4 C5', 'I V7/ii ii V7 I'),
  major('dominant of the subdominant', 'C3 E4 G4 C5; C3 E4 G4 Bb4; F3 F4 A4 C5; G3 D4 F4 B4; C3 E4 G4 C5', 'I V7/IV IV V7 I'),
  major('diminished seventh of the dominant', 'C3 E4 G4 C5; F#3 Eb4 A4 C5; G3 D4 G4 B4; C3 E4 G4 C5', 'I viio7/V V I'),
  major('diminished seventh of the supertonic', 'C3 E4 G4 C5; C#3 E4 G4 Bb4; D3 F4 A4 D5; G2 D4 F4 B4; C3 E4 G4 C5', 'I viio7/ii ii V7 I'),
  major('leading-note triad', 'C3 E4 G4 C5; D3 F4 B4 D5; E3 E4 G4 C5; F3 F4 A4 C5; G3 D4 G4 B4; C3 E4 G4 C5', 'I viio6 I6 IV V I'),
  major('half-diminished leading-note seventh', 'C3 E4 G4 C5; B2 F4 A4 D5; C3 E4 G4 C5; G3 D4 F4 B4; C3 E4 G4 C5', 'I viiø7 I V7 I'),
  major('borrowed minor subdominant', 'C3 E4 G4 C5; F3 F4 Ab4 C5; C3 E4 G4 C5; G3 D4 F4 B4; C3 E4 G4 C5', 'I iv I V7 I'),
  major('borrowed flattened submediant', 'C3 E4 G4 C5; G3 D4 F4 B4; Ab3 C4 Eb4 C5; F3 D4 A4 D5; G3 D4 F4 B4; C3 E4 G4 C5', 'I V7 bVI ii6 V7 I'),
  major('borrowed supertonic seventh', 'C3 E4 G4 C5; F3 D4 Ab4 C5; G3 D4 F4 B4; C3 E4 G4 C5', 'I iiø65 V7 I'),
  major('flattened supertonic sixth', 'C3 E4 G4 C5; F3 F4 Ab4 Db5; G3 D4 G4 B4; C3 E4 G4 C5', 'I N6 V I'),
  major('Italian sixth', 'C3 E4 G4 C5; Ab3 C4 F#4 C5; G3 D4 G4 B4; C3 E4 G4 C5', 'I It6 V I'),
  major('French sixth', 'C3 E4 G4 C5; Ab3 C4 D4 F#4; G3 D4 G4 B4; C3 E4 G4 C5', 'I Fr6 V I'),
  major('German sixth before a six-four', 'C3 E4 G4 C5; Ab3 C4 Eb4 F#4; G3 C4 E4 G4; G3 D4 F4 B4; C3 E4 G4 C5', 'I Ger6 V(64) V7 I'),
  major('falling fifths', 'C3 E4 G4 C5; F3 F4 A4 C5; B2 F4 B4 D5; E3 E4 G4 B4; A2 E4 A4 C5; D3 D4 F4 A4; G2 D4 G4 B4; C3 E4 G4 C5', 'I IV viio iii vi ii V I'),
  major('dominant seventh in last inversion', 'C3 E4 G4 C5; F3 D4 G4 B4; E3 E4 G4 C5; G3 D4 F4 B4; C3 E4 G4 C5', 'I V42 I6 V7 I'),
  major('dominant seventh in second inversion', 'C3 E4 G4 C5; D3 F4 G4 B4; E3 E4 G4 C5; G3 D4 F4 B4; C3 E4 G4 C5', 'I V43 I6 V7 I'),
  minor('primary triads', 'A2 E4 A4 C5; D3 D4 F4 A4; E3 E4 G#4 B4; A2 E4 A4 C5', 'i iv V i'),
  minor('flattened supertonic sixth', 'A2 E4 A4 C5; D3 D4 F4 Bb4; E3 E4 G#4 B4; A2 E4 A4 C5', 'i N6 V i'),
  minor('flattened supertonic sixth before a six-four', 'A2 E4 A4 C5; D3 D4 F4 Bb4; E3 C4 E4 A4; E3 B3 D4 G#4; A2 C4 E4 A4', 'i N6 V(64) V7 i'),
  minor('Picardy third', 'A2 E4 A4 C5; D3 D4 F4 A4; E3 E4 G#4 B4; A2 C4 E4 A4; D3 D4 F4 A4; E3 D4 G#4 B4; A2 E4 A4 C#5', 'i iv V i iv V7 I'),
  minor('interrupted cadence', 'A2 E4 A4 C5; D3 D4 F4 A4; E3 D4 G#4 B4; F3 C4 A4 C5', 'i iv V7 VI'),
  minor('half-diminished supertonic seventh', 'A2 E4 A4 C5; D3 B3 F4 A4; E3 B3 E4 G#4; A2 C4 E4 A4', 'i iiø65 V i'),
  minor('diminished seventh', 'A2 E4 A4 C5; G#2 F4 B4 D5; A2 E4 A4 C5; E3 D4 G#4 B4; A2 C4 E4 A4', 'i viio7 i V7 i'),
  minor('Italian sixth', 'A2 E4 A4 C5; F3 A3 D#4 A4; E3 B3 E4 G#4; A2 C4 E4 A4', 'i It6 V i'),
  minor('French sixth', 'A2 E4 A4 C5; F3 A3 B3 D#4; E3 B3 E4 G#4; A2 C4 E4 A4', 'i Fr6 V i'),
  minor('German sixth', 'A2 E4 A4 C5; F3 A3 C4 D#4; E3 A3 C4 E4; E3 G#3 B3 E4; A2 A3 C4 E4', 'i Ger6 V(64) V i'),
  minor('diminished seventh of the dominant', 'A2 E4 A4 C5; D#3 C4 F#4 A4; E3 B3 E4 G#4; A2 C4 E4 A4', 'i viio7/V V i'),
  minor('dominant of the mediant', 'A2 E4 A4 C5; G2 F4 B4 D5; C3 E4 G4 C5; E3 D4 G#4 B4; A2 E4 A4 C5', 'i V7/III III V7 i'),
  minor('dominant of the subdominant', 'A2 E4 A4 C5; A2 E4 G4 C#5; D3 D4 F4 A4; E3 D4 G#4 B4; A2 E4 A4 C5', 'i V7/iv iv V7 i'),
  minor('descending tetrachord, half close', 'A3 C4 E4 A4; G3 D4 G4 B4; F3 C4 F4 A4; E3 B3 E4 G#4', 'i VII VI V'),
  minor('submediant and supertonic', 'A2 E4 A4 C5; F2 F4 A4 C5; D3 F4 B4 D5; E3 E4 G#4 B4; A2 E4 A4 C5', 'i VI iio6 V i'),
  minor('mediant', 'A2 E4 A4 C5; C3 E4 G4 C5; F3 F4 A4 C5; D3 D4 F4 A4; E3 D4 G#4 B4; A2 C4 E4 A4', 'i III VI iv V7 i'),
  minor('plagal cadence', 'A2 E4 A4 C5; E3 E4 G#4 B4; A2 E4 A4 C5; D3 D4 F4 A4; A2 C4 E4 A4', 'i V i iv i'),
];
