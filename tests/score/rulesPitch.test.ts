import { describe, expect, it } from 'vitest';
import { bars, direction, head, note, partwise, tieStart, tieStop } from './build.js';
import { readBars, readText } from './read.js';

// Rules of MusicXML 4.0 (W3C) on pitch and sound.

const pitches = (text: string): readonly string[] =>
  readText(partwise(bars([text]))).notes.map((n) => `${n.pitch.step}${n.pitch.alter}${n.pitch.octave}=${n.pitch.midi}`);

describe('pitch in MusicXML 4.0 (W3C)', () => {
  it('octave 4 starts at middle C, MIDI 60; alter -1 is flat, +1 sharp', () => {
    const score = readBars([note('C4', 1) + note('B3', 1) + note('Bb3', 1) + note('F##4', 1) + note('Cb4', 1) + note('B#3', 3)]);
    // by counting keys: B3 59, B flat 58, F double sharp 65+2, C flat 4 is the key of B3, B sharp 3 the key of C4
    expect(score.notes.map((n) => n.pitch.midi)).toEqual([60, 59, 58, 67, 59, 60]);
  });

  it('decimal alterations are kept and sound as the nearest key', () => {
    const quarterTone = note('C4', 8).replace('</step>', '</step><alter>0.25</alter>');
    expect(pitches(quarterTone)).toEqual(['C0.254=60']);
  });

  it('transpose: chromatic and octave-change are added to one another; diatonic only spells', () => {
    const transpose = '<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic><octave-change>-1</octave-change></transpose>';
    // written D4 (62) down a whole tone and an octave: C3, 62 - 14 = 48
    expect(pitches(head('4/4', transpose) + note('D4', 8))).toEqual(['C03=48']);
  });

  it('transpose without diatonic is spelled by the usual interval', () => {
    // written C4 up three semitones: a minor third, E flat
    expect(pitches(head('4/4', '<transpose><chromatic>3</chromatic></transpose>') + note('C4', 8))).toEqual(['E-14=63']);
  });

  it('a transposition may hold for one stave alone', () => {
    const transpose = '<staves>2</staves><transpose number="2"><chromatic>12</chromatic></transpose>';
    expect(pitches(head('4/4', transpose) + note('C4', 4, { staff: 1 }) + note('C4', 4, { staff: 2 }))).toEqual(['C04=60', 'C05=72']);
  });

  it('a later transposition without a stave holds for all staves again', () => {
    const one = '<staves>2</staves><transpose number="2"><chromatic>12</chromatic></transpose>';
    const all = '<attributes><transpose><chromatic>-12</chromatic></transpose></attributes>';
    expect(pitches(head('4/4', one) + all + note('C4', 4, { staff: 1 }) + note('C4', 4, { staff: 2 }))).toEqual(['C03=48', 'C03=48']);
  });

  it('octave-shift: the pitch already sounds and is never shifted again; type "down" size 8 is printed 8va', () => {
    const score = readBars([
      direction('<octave-shift type="down" size="8"/>') + note('C6', 4) + direction('<octave-shift type="stop" size="8"/>') + note('D5', 4),
    ]);
    expect(score.notes.map((n) => n.pitch.midi)).toEqual([84, 74]);
    expect(score.directions.map((d) => [d.kind, d.text, d.onsetTick, d.untilTick])).toEqual([['octaveShift', '8va', 0, 4]]);
  });

  it('octave-shift of 15 is two octaves, upward types are printed 8vb', () => {
    const score = readBars([
      direction('<octave-shift type="up" size="8"/>') + note('C2', 8),
      direction('<octave-shift type="down" size="15" number="2"/>') + note('C7', 8),
    ]);
    expect(score.directions.map((d) => d.text)).toEqual(['8vb', '15ma']);
  });
});

describe('loudness and length of single notes in MusicXML 4.0 (W3C)', () => {
  it('note dynamics are percent of MIDI velocity 90', () => {
    const velocity = (percent: string): number | null =>
      readBars([note('C4', 8, { attributes: `dynamics="${percent}"` })]).notes[0]!.velocity;
    // 100 % of 90; 71.11 % = 64.0; 141.11 % = 127.0
    expect([velocity('100'), velocity('71.11'), velocity('141.11')]).toEqual([90, 64, 127]);
    expect(readBars([note('C4', 8)]).notes[0]!.velocity).toBeNull();
  });

  it('a single tied of type let-ring lets the note ring and ties nothing', () => {
    const score = readBars([note('C4', 4, { signs: '<tied type="let-ring"/>' }) + note('C4', 4)]);
    expect(score.notes.map((n) => n.letRing)).toEqual([true, false]);
    expect(score.occurrences).toHaveLength(2);
    expect(score.warnings).toEqual([]);
  });

  it('tie is sound and tied is only notation: notes merge on tie alone', () => {
    const onlyDrawn = readBars([
      note('C4', 4, { signs: '<tied type="start"/>' }) +
        note('C4', 4, { signs: '<tied type="stop"/><slur type="start" number="1"/><slur type="stop" number="1"/>' }),
    ]);
    expect(onlyDrawn.occurrences).toHaveLength(2);
    const sounding = readBars([note('C4', 4, { inside: tieStart }) + note('C4', 4, { inside: tieStop })]);
    expect(sounding.occurrences.map((o) => o.tied)).toEqual([[0, 1]]);
  });

  it('a tie may join two spellings of one key', () => {
    const score = readBars([note('C#4', 4, { inside: tieStart }) + note('Db4', 4, { inside: tieStop })]);
    expect(score.occurrences.map((o) => [o.midi, o.endTick])).toEqual([[61, 8]]);
  });
});
