import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { readScore } from '../../src/score/index.js';
import { MAX_FILE_BYTES, MAX_PACKED_ENTRIES, MAX_TEXT_CHARACTERS, MAX_UNPACKED_BYTES, MAX_XML_DEPTH } from '../../src/score/limits.js';
import { backup, barline, bars, head, note, partwise, rest, utf8 } from './build.js';
import { expectInputError } from './errors.js';
import { readBars, readText } from './read.js';

const good = partwise(bars([note('C4', 8)]));

function read(bytes: Uint8Array): unknown {
  return readScore(bytes, { fileName: 'letter.xml' });
}

describe('files that are no scores', () => {
  it('an empty file, also one of blanks alone', () => {
    expectInputError(() => read(new Uint8Array()), 'empty', { place: { file: 'letter.xml' } });
    expectInputError(() => read(utf8(' \n\t ')), 'empty');
  });

  it('text that is no XML', () => {
    expectInputError(() => read(utf8('Dear teacher, here is my piece.')), 'not-a-score', { says: /no XML/ });
  });

  it.each([
    ['JPEG', [0xff, 0xd8, 0xff, 0xe0, 0, 16], /JPEG/],
    ['PNG', [0x89, 0x50, 0x4e, 0x47], /PNG/],
    ['PDF', [0x25, 0x50, 0x44, 0x46], /PDF/],
  ])('a %s', (_name, bytes, says) => {
    expectInputError(() => read(Uint8Array.from(bytes)), 'not-a-score', { says });
  });

  it('XML of another kind', () => {
    for (const other of ['<mei xmlns="http://www.music-encoding.org/ns/mei"/>', '<html><body/></html>', '<opus/>']) {
      expectInputError(() => readText(other), 'not-a-score', { says: /score-partwise/ });
    }
  });

  it('a score without parts, and a part without bars', () => {
    expectInputError(() => readText('<score-partwise><part-list/></score-partwise>'), 'not-a-score', { says: /no part/ });
    expectInputError(() => readText(partwise('')), 'not-a-score', { says: /no bars/ });
  });

  it('a file that is larger than the cap', () => {
    expectInputError(() => read(new Uint8Array(MAX_FILE_BYTES + 1)), 'too-large');
  });
});

describe('broken and hostile XML', () => {
  it('XML cut in the middle, with the line', () => {
    expectInputError(() => readText(good.slice(0, -30)), 'not-well-formed', { place: { file: 'invented.musicxml' } });
    expectInputError(() => readText('<score-partwise>\n<part>\n</score-partwise>'), 'not-well-formed', { place: { line: 3 } });
  });

  it('bytes that are no text in the encoding', () => {
    expectInputError(() => read(Uint8Array.from([...utf8('<a>'), 0xc3, 0x28, ...utf8('</a>')])), 'not-well-formed', { says: /encoding/ });
  });

  it('an encoding that is not read', () => {
    expectInputError(() => readText(good.replace('UTF-8', 'EBCDIC-CP-US')), 'unsupported');
  });

  it('entities of its own: external ones are never fetched, nested ones never grown', () => {
    for (const subset of [
      '<!ENTITY x SYSTEM "file:///etc/hostname">',
      '<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;">',
      '<!ENTITY % p SYSTEM "http://dtd.invalid/x"> %p;',
    ]) {
      expectInputError(() => readText(good.replace('?>\n', `?>\n<!DOCTYPE score-partwise [${subset}]>\n`)), 'unsupported', {
        says: /entities/,
      });
    }
    expectInputError(() => readText(good.replace('Piano', '&unknown;')), 'not-well-formed');
  });

  it('text without end is cut: no later step has to search through megabytes of it', () => {
    const endless = 'a'.repeat(2_000_000);
    const words = `<direction><direction-type><words>${endless}</words></direction-type><sound tempo="100"/></direction>`;
    const { directions } = readBars([words + note('C4', 8)]);
    expect(directions.find(({ kind }) => kind === 'tempo')?.text).toBe(endless.slice(0, MAX_TEXT_CHARACTERS));
    // 8 divisions, written with two million places: whole all the same
    const { notes } = readBars([note('C4', 8).replace('<duration>8<', `<duration>8.${'0'.repeat(2_000_000)}<`)]);
    expect(notes[0]?.lengthTicks).toBe(8);
  });

  it('tags nested without end', () => {
    const nested = '<a>'.repeat(5_000_000);
    expectInputError(() => read(utf8(nested)), 'too-large', { says: new RegExp(`more than ${MAX_XML_DEPTH} deep`) });
    expectInputError(() => read(utf8('<a>'.repeat(17_500_000))), 'too-large', { says: /MB/ });
  });
});

describe('broken and hostile compressed files', () => {
  const packed = zipSync({
    'META-INF/container.xml': strToU8('<container><rootfiles><rootfile full-path="s.xml"/></rootfiles></container>'),
    's.xml': utf8(partwise(bars(Array.from({ length: 300 }, (_, i) => note('C4', 8, { id: `n${i * 7919}` }))))),
  });

  it('half a file', () => {
    expectInputError(() => read(packed.slice(0, packed.length / 2)), 'not-well-formed', { says: /cut short or damaged/ });
  });

  it('a file damaged inside', () => {
    const damaged = packed.slice();
    damaged.fill(0xff, 250, 330);
    expectInputError(() => read(damaged), 'not-well-formed');
  });

  it('a file with no score inside', () => {
    expectInputError(() => read(zipSync({ 'cover.png': strToU8('x') })), 'not-a-score', { says: /holds no score/ });
    expectInputError(
      () =>
        read(
          zipSync({ 'META-INF/container.xml': strToU8('<container><rootfiles><rootfile full-path="gone.xml"/></rootfiles></container>') }),
        ),
      'not-a-score',
    );
  });

  it('a bomb that says how large it is', () => {
    const bomb = zipSync({ 'a.xml': new Uint8Array(MAX_UNPACKED_BYTES + 1) });
    expectInputError(() => read(bomb), 'too-large', { says: /unpacks to more/ });
  });

  it('an entry cut short that is stored as it is, not deflated', () => {
    const stored = zipSync({ 's.xml': [utf8(good), { level: 0 }] });
    expectInputError(() => read(stored.slice(0, 200)), 'not-well-formed', { says: /cut short or damaged/ });
  });

  it('an entry that claims to be too large is refused by its own words, before it is unpacked', () => {
    const small = zipSync({ 'a.xml': utf8(good) });
    new DataView(small.buffer, small.byteOffset).setUint32(22, MAX_UNPACKED_BYTES + 1, true);
    expectInputError(() => read(small), 'too-large', { says: /unpacks to more/ });
  });

  it('a bomb that lies about its size', () => {
    const bomb = zipSync({ 'a.xml': new Uint8Array(MAX_UNPACKED_BYTES + 1) });
    // the uncompressed size stands 22 bytes into the local header (ZIP file format)
    new DataView(bomb.buffer, bomb.byteOffset).setUint32(22, 10, true);
    expectInputError(() => read(bomb), 'too-large', { says: /unpacks to more/ });
  });

  it('more entries than any score has', () => {
    const many = Object.fromEntries(Array.from({ length: MAX_PACKED_ENTRIES + 1 }, (_, i) => [`${i}.txt`, strToU8('x')]));
    expectInputError(() => read(zipSync(many)), 'too-large');
  });
});

describe('values that cannot be, with the bar', () => {
  const inBarTwo =
    (content: string): (() => unknown) =>
    () =>
      readBars([note('C4', 8), content]);
  const place = { bar: '2', file: 'invented.musicxml' };

  it.each([
    ['a negative duration', note('C4', -2), /duration/],
    ['a duration of nothing', note('C4', 0), /duration/],
    ['a duration that is no number', note('C4', 2).replace('<duration>2', '<duration>two'), /duration/],
    ['a missing duration', note('C4', 2).replace('<duration>2</duration>', ''), /duration/],
    ['an absurd duration', note('C4', 99_999_999), /duration/],
    ['a negative step back', backup(-4), /duration/],
    ['a rest of negative length', rest(-1), /duration/],
    ['divisions 0', '<attributes><divisions>0</divisions></attributes>', /divisions/],
    ['divisions in words', '<attributes><divisions>many</divisions></attributes>', /divisions/],
    ['negative divisions', '<attributes><divisions>-2</divisions></attributes>', /divisions/],
    ['9999 staves', '<attributes><staves>9999</staves></attributes>', /staves/],
    ['0 staves', '<attributes><staves>0</staves></attributes>', /staves/],
    ['a note on stave 77', note('C4', 8, { staff: 77 }), /stave/],
    ['beat value 0', '<attributes><time><beats>4</beats><beat-type>0</beat-type></time></attributes>', /beat value/],
    ['no beats', '<attributes><time><beats>0</beats><beat-type>4</beat-type></time></attributes>', /number of beats/],
    ['beats in words', '<attributes><time><beats>four</beats><beat-type>4</beat-type></time></attributes>', /number of beats/],
    ['a key of 20 sharps', '<attributes><key><fifths>20</fifths></key></attributes>', /key signature/],
    ['an absurd alteration', note('C4', 8).replace('</step>', '</step><alter>40</alter>'), /alteration/],
    ['an absurd octave', note('C4', 8).replace('<octave>4', '<octave>99'), /octave/],
    ['a step H', note('C4', 8).replace('<step>C', '<step>H'), /step/],
    ['a pitch beyond MIDI', note('B9', 8), /MIDI range/],
    ['an absurd transposition', '<attributes><transpose><chromatic>500</chromatic></transpose></attributes>', /transposition/],
    ['a repeat of a million plays', note('C4', 8) + barline('<repeat direction="backward" times="1000000"/>'), /repeat/],
    ['an ending numbered 9000', `${barline('<ending number="9000" type="start"/>', 'left')}${note('C4', 8)}`, /ending/],
  ])('%s', (_name, content, says) => {
    expectInputError(inBarTwo(content), 'bad-value', { says, place });
  });

  it('divisions without a common grid are refused', () => {
    const primes = [99_991, 99_989, 99_971].map((divisions) => head('4/4', '', divisions) + note('C4', divisions));
    expectInputError(() => readText(partwise(bars(primes))), 'too-large', { says: /common grid/, place: { bar: '2' } });
  });
});
