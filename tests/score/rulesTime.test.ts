import { describe, expect, it } from 'vitest';
import { backup, bars, cue, direction, forward, grace, head, note, partwise, rest } from './build.js';
import { expectWarning, onsets, readBars, readText, sounds, warningTexts } from './read.js';

// Rules of MusicXML 4.0 (W3C) on time; expected numbers are worked by hand from the built durations.

describe('time in MusicXML 4.0 (W3C)', () => {
  it('divisions are divisions of a crotchet: with divisions 2 a duration of 1 is a quaver', () => {
    const score = readBars([note('C4', 1, { id: 'a' }) + note('D4', 1, { id: 'b' }) + note('E4', 6, { id: 'c' })]);
    expect(onsets(score)).toEqual({ a: 0, b: 0.5, c: 1 });
    expect(score.ticksPerQuarter).toBe(2);
  });

  it('divisions may change in the middle of a piece and positions stay exact on the least common grid', () => {
    // 2 and 3 divisions meet on a grid of 6: a quaver is 3 ticks, a triplet quaver 2
    const score = readBars([
      note('C4', 8),
      `<attributes><divisions>3</divisions></attributes>${note('C4', 1, { id: 'x' })}${note('D4', 1, { id: 'y' })}${note('E4', 10)}`,
    ]);
    expect(score.ticksPerQuarter).toBe(6);
    expect(score.notes.map((n) => n.onsetTick)).toEqual([0, 24, 26, 28]);
  });

  it('beats shorter than a crotchet are whole on the grid even where no note needs it', () => {
    // 3/8 with one division a crotchet: the bar is 1.5 crotchets, so the grid must halve the crotchet
    const score = readText(partwise(bars([head('3/8', '', 1) + note('C4', 1)])));
    expect(score.ticksPerQuarter).toBe(2);
    expect(score.bars[0]!.nominalTicks).toBe(3);
  });

  it('decimal durations stay exact', () => {
    const score = readText(partwise(bars([head('4/4', '', 1) + note('C4', 0.25, { id: 'a' }) + note('D4', 3.75, { id: 'b' })])));
    expect(onsets(score)).toEqual({ a: 0, b: 0.25 });
    expect(score.bars[0]!.lengthTicks).toBe(4 * score.ticksPerQuarter);
  });

  it('backup and forward move the position, and the bar lasts to the furthest moment', () => {
    const score = readBars([note('C5', 8, { id: 'top' }) + backup(8) + forward(4) + note('C3', 4, { id: 'low', voice: '2' })]);
    expect(onsets(score)).toEqual({ top: 0, low: 2 });
    expect(score.bars[0]!.lengthTicks).toBe(8);
  });

  it('a chord note is added to the note before it and does not move time, though shorter', () => {
    const score = readBars([note('C4', 4, { id: 'a' }) + note('E4', 2, { id: 'b', chord: true }) + note('G4', 4, { id: 'c' })]);
    expect(onsets(score)).toEqual({ a: 0, b: 0, c: 2 });
    expect(score.notes.map((n) => [n.lengthTicks, n.inChord])).toEqual([
      [4, false],
      [2, true],
      [4, false],
    ]);
  });

  it('a chord mark right after a backup has no note to join: it is read as a note of its own, with a warning', () => {
    const score = readBars([note('C5', 8) + backup(8) + note('C3', 4, { id: 'x', chord: true }) + note('D3', 4, { id: 'y' })]);
    expect(onsets(score)).toMatchObject({ x: 0, y: 2 });
    expect(score.notes.map((n) => n.inChord)).toEqual([false, false, false]);
    expectWarning(score, '1', /chord/);
  });

  it('a grace note has no duration and stands at its main note, counted down to it', () => {
    const score = readBars([note('C4', 4) + grace('D4', { id: 'g1' }) + grace('E4', { id: 'g2' }, true) + note('F4', 4, { id: 'main' })]);
    expect(onsets(score)).toMatchObject({ g1: 2, g2: 2, main: 2 });
    expect(score.notes.map((n) => n.grace)).toEqual([
      null,
      { slash: false, before: 2, after: false },
      { slash: true, before: 1, after: false },
      null,
    ]);
    expect(sounds(score).map(([id]) => id)).toEqual([expect.any(String), 'g1', 'g2', 'main']);
  });

  it('a chord of grace notes counts as one step before the main note', () => {
    const score = readBars([grace('D4') + grace('F4', { chord: true }) + grace('E4') + note('C4', 8)]);
    expect(score.notes.map((n) => n.grace?.before ?? 0)).toEqual([2, 2, 1, 0]);
  });

  it('grace notes with no main note after them are after-notes and sound before what follows', () => {
    const score = readBars([
      note('C4', 8) + grace('B3', { id: 'n1' }) + grace('C4', { id: 'n2' }),
      grace('E4', { id: 'g' }) + note('D4', 8, { id: 'main' }),
    ]);
    expect(score.notes.slice(1, 3).map((n) => n.grace)).toEqual([
      { slash: false, before: 2, after: true },
      { slash: false, before: 1, after: true },
    ]);
    expect(
      sounds(score)
        .slice(1)
        .map(([id, , onset]) => [id, onset]),
    ).toEqual([
      ['n1', 4],
      ['n2', 4],
      ['g', 4],
      ['main', 4],
    ]);
  });

  it('grace notes of one voice are not counted towards a note of another', () => {
    const score = readBars([note('C4', 8) + grace('D4', { id: 'g' }) + backup(8) + note('C3', 8, { voice: '2' })]);
    expect(score.notes[1]!.grace).toEqual({ slash: false, before: 1, after: true });
  });

  it('a cue note has a duration and is silent', () => {
    const score = readBars([cue('C4', 4, { id: 'small' }) + note('D4', 4, { id: 'big' })]);
    expect(onsets(score)).toEqual({ small: 0, big: 2 });
    expect(sounds(score).map(([id]) => id)).toEqual(['big']);
  });

  it('a cue-size note (type size="cue") still sounds', () => {
    const score = readBars([note('C4', 8, { id: 'a', inside: '<type size="cue">whole</type>' })]);
    expect(score.notes[0]!.cue).toBe(false);
    expect(sounds(score)).toHaveLength(1);
  });

  it('attack and release belong to a performance and leave the written length alone', () => {
    const score = readBars([note('C4', 4, { attributes: 'attack="1" release="-1"' }) + note('D4', 4)]);
    expect(score.notes.map((n) => [n.onsetTick, n.lengthTicks])).toEqual([
      [0, 4],
      [4, 4],
    ]);
  });

  it('time-modification 3:2 means three in the time of two', () => {
    const triplet =
      '<type>eighth</type><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>';
    const score = readText(
      partwise(
        bars([
          head('1/4', '', 3) + note('C4', 1, { inside: triplet }) + note('D4', 1, { inside: triplet }) + note('E4', 1, { inside: triplet }),
        ]),
      ),
    );
    expect(score.notes.map((n) => n.tuplet)).toEqual([
      [3, 2],
      [3, 2],
      [3, 2],
    ]);
    expect(score.bars[0]!.lengthTicks).toBe(score.bars[0]!.nominalTicks);
  });

  it('a bar that holds nothing lasts what its time signature says', () => {
    const score = readBars(['', note('C4', 8, { id: 'x' })]);
    expect(onsets(score)).toEqual({ x: 4 });
  });

  it('hidden rests beyond the time signature do not lengthen a bar (our own rule: programs round them upward)', () => {
    const score = readBars([
      note('C4', 8) + backup(8) + rest(9, { voice: '2', attributes: 'print-object="no"' }),
      note('D4', 8, { id: 'x' }),
    ]);
    expect(onsets(score)).toMatchObject({ x: 4 });
    expect(warningTexts(score)).toEqual([]);
  });

  it('the offset of a direction changes its sound only with sound="yes"', () => {
    const dynamics = '<dynamics><p/></dynamics>';
    const score = readBars([
      note('C4', 4) + direction(dynamics, '<offset>2</offset>') + direction(dynamics, '<offset sound="yes">2</offset>') + note('D4', 4),
    ]);
    // crotchet 2 is tick 4; two divisions later is tick 6
    expect(score.directions.map((d) => d.onsetTick)).toEqual([4, 6]);
  });

  it('the offset of a sound always counts and goes before that of its direction', () => {
    const score = readBars([
      direction('<words>Allegro</words>', '<offset sound="yes">6</offset><sound tempo="120"><offset>2</offset></sound>') + note('C4', 8),
    ]);
    expect(score.directions.map((d) => [d.kind, d.onsetTick, d.value])).toEqual([['tempo', 2, 120]]);
  });
});

describe('time signatures and bar numbers', () => {
  it('a bar number is a token: "X1", "12a" and "0" are kept as they stand', () => {
    const score = readText(
      partwise([
        {
          id: 'P1',
          name: 'Piano',
          measures: bars([
            { content: note('C4', 2), attributes: 'number="0" implicit="yes"' },
            { content: note('C4', 8), attributes: 'number="X1" implicit="no"' },
            { content: note('C4', 8), attributes: 'number="12a"' },
          ]),
        },
      ]),
    );
    expect(score.bars.map((b) => [b.number, b.implicit])).toEqual([
      ['0', true],
      ['X1', false],
      ['12a', false],
    ]);
  });

  it('a pickup and the last bar together make one full bar and are nothing odd (common practice, no source)', () => {
    const score = readBars([{ content: note('C4', 2), attributes: 'number="0" implicit="yes"' }, note('C4', 8), note('C4', 6)]);
    expect(score.bars.map((b) => b.lengthTicks)).toEqual([2, 8, 6]);
    expect(score.bars[0]!.lengthTicks + score.bars[2]!.lengthTicks).toBe(score.bars[1]!.nominalTicks);
    expect(warningTexts(score)).toEqual([]);
  });

  it('composite metres sum their beats in the finest beat value: 3+2/8, and 2/4 with 3/8', () => {
    const composite = (time: string): string => `<attributes><divisions>2</divisions><time>${time}</time></attributes>${note('C4', 5)}`;
    const first = readText(partwise(bars([composite('<beats>3+2</beats><beat-type>8</beat-type>')]))).bars[0]!.time;
    expect([first.beats, first.beatType]).toEqual([5, 8]);
    const second = readText(partwise(bars([composite('<beats>2</beats><beat-type>4</beat-type><beats>3</beats><beat-type>8</beat-type>')])))
      .bars[0]!.time;
    expect([second.beats, second.beatType]).toEqual([7, 8]);
  });

  it('fifths run from -7 (flats) to 7; the mode is optional and then not known', () => {
    const key = (more: string): string =>
      `<attributes><divisions>2</divisions><key><fifths>-3</fifths>${more}</key></attributes>${note('C4', 8)}`;
    expect(readText(partwise(bars([key('')]))).bars[0]!.key).toEqual({ fifths: -3, mode: null });
    expect(readText(partwise(bars([key('<mode>minor</mode>')]))).bars[0]!.key).toEqual({ fifths: -3, mode: 'minor' });
  });

  it('a signature at the end of a bar holds from the next bar on', () => {
    const change = '<attributes><key><fifths>2</fifths></key><time><beats>3</beats><beat-type>4</beat-type></time></attributes>';
    const score = readBars([note('C4', 8) + change, note('C4', 6)]);
    expect(score.bars.map((b) => [b.key.fifths, b.time.beats])).toEqual([
      [0, 4],
      [2, 3],
    ]);
  });
});
