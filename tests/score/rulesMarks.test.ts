import { describe, expect, it } from 'vitest';
import { barline, bars, direction, head, note, partwise, rest } from './build.js';
import { readBars, readText, warningTexts } from './read.js';
import type { Direction } from '../../src/score/index.js';

// Rules of MusicXML 4.0 (W3C) on signs over and under the staves.

/** Directions of one bar that starts with the given ones and holds a semibreve. */
function read(directions: string): readonly Direction[] {
  return readBars([directions + note('C4', 8)]).directions;
}

describe('articulations, ornaments and the like in MusicXML 4.0 (W3C)', () => {
  const signsOf = (signs: string): ReturnType<typeof readBars>['notes'][number] => readBars([note('C4', 8, { signs })]).notes[0]!;

  it.each([
    ['staccato', 'staccato'],
    ['staccatissimo', 'staccatissimo'],
    ['spiccato', 'spiccato'],
    ['tenuto', 'tenuto'],
    ['detached-legato', 'detachedLegato'],
    ['accent', 'accent'],
    ['strong-accent', 'strongAccent'],
    ['breath-mark', 'breathMark'],
    ['caesura', 'caesura'],
  ])('articulation %s is read as %s', (element, articulation) => {
    expect(signsOf(`<articulations><${element}/></articulations>`).articulations).toEqual([articulation]);
  });

  it.each([
    ['trill-mark', 'trill'],
    ['mordent', 'mordent'],
    ['inverted-mordent', 'invertedMordent'],
    ['turn', 'turn'],
    ['inverted-turn', 'invertedTurn'],
    ['delayed-turn', 'delayedTurn'],
    ['shake', 'shake'],
    ['schleifer', 'schleifer'],
  ])('ornament %s is read as %s', (element, ornament) => {
    expect(signsOf(`<ornaments><${element}/></ornaments>`).ornaments).toEqual([ornament]);
  });

  it('trill defaults (upper start, whole step) change nothing of what is read: the sign alone counts', () => {
    expect(signsOf('<ornaments><trill-mark start-note="upper" trill-step="whole" beats="4"/></ornaments>').ornaments).toEqual(
      signsOf('<ornaments><trill-mark/></ornaments>').ornaments,
    );
  });

  it('a trill with its wavy line gives both signs; the end of the line marks no further note', () => {
    const score = readBars([
      note('C4', 4, { signs: '<ornaments><trill-mark/><wavy-line type="start"/></ornaments>' }) +
        note('D4', 4, { signs: '<ornaments><wavy-line type="stop"/></ornaments>' }),
    ]);
    expect(score.notes.map((n) => n.ornaments)).toEqual([['trill', 'wavyLine'], []]);
  });

  it('tremolo of one note and between two notes are told apart', () => {
    expect(signsOf('<ornaments><tremolo type="single">3</tremolo></ornaments>').ornaments).toEqual(['tremolo']);
    expect(signsOf('<ornaments><tremolo type="start">3</tremolo></ornaments>').ornaments).toEqual(['tremoloPair']);
  });

  it('arpeggiate goes from the lowest note up unless a direction is given', () => {
    expect(signsOf('<arpeggiate/>').arpeggio).toBe('up');
    expect(signsOf('<arpeggiate direction="down"/>').arpeggio).toBe('down');
    expect(signsOf('<non-arpeggiate type="top"/>').arpeggio).toBeNull();
  });

  it('slurs, fermatas and fingerings are read; unknown signs are passed over quietly', () => {
    const read = signsOf(
      '<slur type="start" number="2"/><slur type="stop" number="2"/><fermata/><technical><fingering>3</fingering></technical><glissando/>',
    );
    expect(read.slurs).toEqual([
      { kind: 'start', number: 2 },
      { kind: 'stop', number: 2 },
    ]);
    expect([read.fermata, read.fingering]).toEqual([true, ['3']]);
  });

  it('lyrics and figured bass are ignored without a word', () => {
    const score = readBars([
      `<figured-bass><figure><figure-number>6</figure-number></figure></figured-bass>${note('C4', 8, { inside: '<type>whole</type>' }).replace('</note>', '<lyric><text>la</text></lyric></note>')}`,
    ]);
    expect(score.warnings).toEqual([]);
  });

  it('rests keep their place, stave and fermata', () => {
    const score = readText(
      partwise(bars([head('4/4', '<staves>2</staves>') + note('C4', 4) + rest(4, { staff: 2, voice: '5', signs: '<fermata/>' })])),
    );
    expect(score.rests).toEqual([{ barIndex: 0, onsetTick: 4, lengthTicks: 4, staff: 2, voice: '5', wholeBar: false, fermata: true }]);
  });
});

describe('directions in MusicXML 4.0 (W3C)', () => {
  it('a direction without a stave belongs to stave 1 (recalled from the standard, not seen)', () => {
    expect(read(direction('<dynamics><mf/></dynamics>')).map((d) => [d.kind, d.text, d.staff])).toEqual([['dynamics', 'mf', 1]]);
    expect(read(direction('<dynamics><p/></dynamics>', '<staff>2</staff>'))[0]!.staff).toBe(2);
  });

  it('sound dynamics are percent of velocity 90: 70 (mp) gives 63, 122 (fff) gives 109.8', () => {
    expect(read(direction('<dynamics><mp/></dynamics>', '<sound dynamics="70"/>'))[0]!.value).toBeCloseTo(63, 10);
    expect(read(direction('<dynamics><fff/></dynamics>', '<sound dynamics="122"/>'))[0]!.value).toBeCloseTo(109.8, 10);
  });

  it('dynamics in the notations of a note count too, other dynamics with their own text', () => {
    const score = readBars([note('C4', 4) + note('D4', 4, { signs: '<dynamics><other-dynamics>sffz</other-dynamics></dynamics>' })]);
    expect(score.directions.map((d) => [d.text, d.onsetTick])).toEqual([['sffz', 4]]);
  });

  it('hairpins run from start to stop', () => {
    const score = readBars([
      direction('<wedge type="diminuendo" number="1"/>') + note('C4', 6) + direction('<wedge type="stop" number="1"/>') + note('D4', 2),
    ]);
    expect(score.directions.map((d) => [d.kind, d.onsetTick, d.untilTick])).toEqual([['diminuendo', 0, 6]]);
  });

  it('where one hairpin ends and the next begins, the file may name either first', () => {
    const score = readBars([
      direction('<wedge type="crescendo"/>') +
        note('C4', 4) +
        direction('<wedge type="diminuendo"/>') +
        direction('<wedge type="stop"/>') +
        note('D4', 4) +
        direction('<wedge type="stop"/>'),
    ]);
    expect(score.directions.map((d) => [d.kind, d.onsetTick, d.untilTick])).toEqual([
      ['crescendo', 0, 4],
      ['diminuendo', 4, 8],
    ]);
    expect(score.warnings).toEqual([]);
  });

  it('a hairpin that never ends has an open end and a warning', () => {
    const score = readBars([direction('<wedge type="crescendo"/>') + note('C4', 8)]);
    expect(score.directions.map((d) => d.untilTick)).toEqual([null]);
    expect(warningTexts(score)).toEqual([expect.stringContaining('hairpin')]);
  });

  it('"cresc." lasts as long as its dashes', () => {
    const score = readBars([
      direction('<words>cresc.</words>').replace('</direction>', '<direction-type><dashes type="start"/></direction-type></direction>') +
        note('C4', 4) +
        direction('<dashes type="stop"/>') +
        note('D4', 4),
    ]);
    expect(score.directions.map((d) => [d.kind, d.text, d.onsetTick, d.untilTick])).toEqual([['crescendo', 'cresc.', 0, 4]]);
  });

  it('pedal start lasts to the stop; change lifts and retakes, so it ends one stretch and begins another', () => {
    const pedal = (type: string): string => direction(`<pedal type="${type}"/>`);
    const score = readBars([pedal('start') + note('C4', 2) + pedal('change') + note('D4', 4) + pedal('stop') + note('E4', 2)]);
    expect(score.directions.map((d) => [d.text, d.onsetTick, d.untilTick])).toEqual([
      ['start', 0, 2],
      ['change', 2, 6],
      ['stop', 6, null],
    ]);
  });

  it('pedal continue, discontinue and resume only draw: they neither lift nor press', () => {
    const pedal = (type: string): string => direction(`<pedal type="${type}"/>`);
    const score = readBars([
      pedal('start') +
        note('C4', 2) +
        pedal('discontinue') +
        note('D4', 2) +
        pedal('resume') +
        note('E4', 2) +
        pedal('continue') +
        note('F4', 2) +
        pedal('stop'),
    ]);
    expect(score.directions.map((d) => [d.text, d.untilTick])).toEqual([
      ['start', 8],
      ['discontinue', null],
      ['resume', null],
      ['continue', null],
      ['stop', null],
    ]);
  });

  it('pedal signs and lines (sign, line attributes) mean the same stretch', () => {
    expect(read(direction('<pedal type="start" line="yes" sign="no"/>')).map((d) => d.text)).toEqual(
      read(direction('<pedal type="start"/>')).map((d) => d.text),
    );
  });

  it('sound damper-pedal: yes is 100, no is 0, a number is percent pressed (half pedal)', () => {
    const depth = (value: string): readonly (readonly [string, number | null])[] =>
      read(`<sound damper-pedal="${value}"/>`).map((d) => [d.text, d.value]);
    expect([depth('yes'), depth('no'), depth('40')]).toEqual([[['start', 100]], [['stop', 0]], [['start', 40]]]);
    expect(read(direction('<pedal type="start"/>', '<sound damper-pedal="55"/>')).map((d) => [d.text, d.value])).toEqual([['start', 55]]);
  });

  it('sound soft-pedal and sostenuto-pedal are kept apart from the damper pedal', () => {
    expect(read('<sound soft-pedal="yes"/>').map((d) => [d.kind, d.text, d.value])).toEqual([['pedal', 'soft', 100]]);
    expect(read('<sound sostenuto-pedal="yes"/>').map((d) => d.text)).toEqual(['sostenuto']);
  });

  it('sound tempo is crotchets a minute even in 6/8; a dotted crotchet of 60 is 90', () => {
    const metronome = '<metronome><beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>60</per-minute></metronome>';
    const score = readText(partwise(bars([head('6/8') + direction(metronome) + '<sound tempo="90"/>' + note('C4', 6)])));
    expect(score.directions.map((d) => [d.kind, d.text, d.value])).toEqual([
      ['tempo', 'quarter. = 60', 90],
      ['tempo', '', 90],
    ]);
  });

  it('sound tempo 0 means "ask" and gives no tempo', () => {
    expect(read(direction('<words>Slowly</words>', '<sound tempo="0"/>')).map((d) => d.value)).toEqual([null]);
  });

  it('words and metronome of one direction are one tempo mark; tempo words alone have no number', () => {
    const metronome = '<metronome><beat-unit>half</beat-unit><per-minute>ca. 40</per-minute></metronome>';
    expect(read(direction(`<words>Andantino</words>${metronome}`)).map((d) => [d.kind, d.text, d.value])).toEqual([
      ['tempo', 'Andantino half = ca. 40', 80],
    ]);
    expect(read(direction('<words>poco rit.</words>')).map((d) => [d.kind, d.value])).toEqual([['tempo', null]]);
    expect(read(direction('<words>dolce</words>')).map((d) => d.kind)).toEqual(['words']);
  });

  it('rehearsal marks, segno and coda signs are read', () => {
    expect(read(direction('<rehearsal>B</rehearsal>') + direction('<segno/>') + direction('<coda/>')).map((d) => [d.kind, d.text])).toEqual(
      [
        ['rehearsal', 'B'],
        ['segno', ''],
        ['coda', ''],
      ],
    );
  });
});

describe('bar lines in MusicXML 4.0 (W3C)', () => {
  it('the location of a bar line is right where it does not say', () => {
    const score = readBars([`${note('C4', 8)}<barline><bar-style>light-light</bar-style></barline>`]);
    expect(score.bars[0]!.barlines).toEqual([{ location: 'right', style: 'light-light', repeat: null, fermata: false }]);
  });

  it('repeats and fermatas of a bar line are kept', () => {
    const score = readBars([
      barline('<bar-style>heavy-light</bar-style><repeat direction="forward"/>', 'left') +
        note('C4', 8) +
        barline('<fermata/><repeat direction="backward"/>'),
    ]);
    expect(score.bars[0]!.barlines.map((b) => [b.location, b.repeat, b.fermata])).toEqual([
      ['left', 'forward', false],
      ['right', 'backward', true],
    ]);
  });
});
