import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { readScore, type Score } from '../../src/score/index.js';
import { bars, note, partwise, utf8 } from './build.js';
import { readText } from './read.js';

const text = partwise(bars([note('C4', 8, { id: 'a' })]), '<work><work-title>Étude d’été</work-title></work>');

function read(bytes: Uint8Array): Score {
  return readScore(bytes, { fileName: 'invented.xml' });
}

/** UTF-16 bytes of a text, with or without its byte order mark. */
function utf16(content: string, order: 'le' | 'be', mark: boolean): Uint8Array {
  const marked = (mark ? '\ufeff' : '') + content;
  const bytes = new Uint8Array(marked.length * 2);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < marked.length; i += 1) view.setUint16(2 * i, marked.charCodeAt(i), order === 'le');
  return bytes;
}

function mxl(entries: Readonly<Record<string, Uint8Array>>): Uint8Array {
  return zipSync(entries);
}

const container = (path: string): Uint8Array =>
  strToU8(
    `<container><rootfiles><rootfile full-path="${path}" media-type="application/vnd.recordare.musicxml+xml"/></rootfiles></container>`,
  );

describe('encodings', () => {
  const declared = (encoding: string): string => text.replace('UTF-8', encoding);

  it.each([
    ['UTF-8', utf8(text)],
    ['UTF-8 with byte order mark', utf8(`\ufeff${text}`)],
    ['UTF-8 without declaration', utf8(text.replace(/^<\?xml.*\?>\n/, ''))],
    ['UTF-16 little endian with mark', utf16(declared('UTF-16'), 'le', true)],
    ['UTF-16 big endian with mark', utf16(declared('UTF-16'), 'be', true)],
    ['UTF-16 little endian without mark', utf16(declared('UTF-16'), 'le', false)],
    ['UTF-16 big endian without mark', utf16(declared('UTF-16'), 'be', false)],
    ['UTF-8 that claims to be UTF-16', utf8(declared('UTF-16'))],
  ])('%s', (_name, bytes) => {
    expect(read(bytes).title).toBe('Étude d’été');
  });

  it('ISO-8859-1 where declared', () => {
    // the accents of the title are single bytes there; its quotation mark is left out
    const latin = declared('ISO-8859-1').replace('’', "'");
    const bytes = Uint8Array.from({ length: latin.length }, (_, i) => latin.charCodeAt(i));
    expect(read(bytes).title).toBe("Étude d'été");
  });

  it('the copy for the engraver says UTF-8, as it is text by then', () => {
    expect(read(utf16(declared('UTF-16'), 'le', true)).xml).toMatch(/^<\?xml version="1.0" encoding="UTF-8"\?>/);
  });

  it('white space before the declaration does no harm', () => {
    expect(read(utf8(`\n  ${text}`)).notes).toHaveLength(1);
  });
});

describe('document types', () => {
  it('a plain document type, as versions up to 3.1 write it, is accepted and never fetched', () => {
    const doctype = '<!DOCTYPE score-partwise PUBLIC "-//Example//DTD MusicXML 3.1 Partwise//EN" "http://dtd.invalid/partwise.dtd">';
    expect(readText(text.replace('?>\n', `?>\n${doctype}\n`)).notes).toHaveLength(1);
  });

  it.each(['1.0', '1.1', '2.0', '3.0', '3.1', '4.0'])('version %s reads alike', (version) => {
    expect(readText(text.replace('version="4.0"', `version="${version}"`)).notes).toEqual(readText(text).notes);
  });
});

describe('compressed files', () => {
  it('the container names the score, whatever else is inside', () => {
    const other = utf8(partwise(bars([note('D5', 8, { id: 'other' })])));
    const packed = mxl({
      'META-INF/container.xml': container('scores/real.xml'),
      'a.xml': other,
      'scores/real.xml': utf8(text),
      'cover.png': strToU8('no picture'),
    });
    expect(read(packed).notes.map((n) => n.id)).toEqual(['a']);
  });

  it('without a container the first XML file is taken', () => {
    expect(read(mxl({ 'piece.musicxml': utf8(text) })).notes).toHaveLength(1);
  });

  it('stored entries and UTF-16 inside are read too', () => {
    const packed = zipSync({
      'META-INF/container.xml': container('s.xml'),
      's.xml': [utf16(text.replace('UTF-8', 'UTF-16'), 'le', true), { level: 0 }],
    });
    expect(read(packed).title).toBe('Étude d’été');
  });
});

describe('timewise scores', () => {
  const timewise = `<score-timewise version="4.0"><part-list><score-part id="V"><part-name>Voice &amp; Co</part-name></score-part><score-part id="P"><part-name>Piano</part-name></score-part></part-list>
<measure number="1"><part id="V">${note('C5', 8)}</part><part id="P"><attributes><divisions>2</divisions></attributes>${note('C4', 8, { id: 'p1' })}</part></measure>
<measure number="X1" implicit="yes"><part id="P">${note('D4', 2)}</part></measure></score-timewise>`;

  it('are read like partwise ones', () => {
    const score = readText(timewise);
    expect(score.parts.map((part) => [part.name, part.chosen])).toEqual([
      ['Voice & Co', false],
      ['Piano', true],
    ]);
    expect(score.bars.map((bar) => [bar.number, bar.implicit])).toEqual([
      ['1', false],
      ['X1', true],
    ]);
    expect(score.notes.map((n) => [n.pitch.midi, n.onsetTick])).toEqual([
      [60, 0],
      [62, 8],
    ]);
  });

  it('give the engraver a partwise copy with the same ids', () => {
    const score = readText(timewise);
    expect(score.xml).toContain('<score-partwise');
    const again = readText(score.xml!);
    expect(again.notes).toEqual(score.notes);
    expect(again.parts).toEqual(score.parts);
  });
});

describe('titles', () => {
  it('come from work, movement and creator, else from the printed credits', () => {
    const before =
      '<work><work-title>Suite</work-title></work><movement-title>Air</movement-title><identification><creator type="composer">N. Invented</creator></identification>';
    expect(readText(partwise(bars([note('C4', 8)]), before))).toMatchObject({ title: 'Suite, Air', composer: 'N. Invented' });
    const credits =
      '<credit><credit-type>title</credit-type><credit-words>Printed</credit-words></credit><credit><credit-type>composer</credit-type><credit-words>Somebody</credit-words></credit>';
    expect(readText(partwise(bars([note('C4', 8)]), credits))).toMatchObject({ title: 'Printed', composer: 'Somebody' });
    expect(readText(partwise(bars([note('C4', 8)])))).toMatchObject({ title: '', composer: '' });
  });
});
