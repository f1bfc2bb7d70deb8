import { expect, test } from 'vitest';
import { repairForEngraving } from '../../src/engrave/index.js';
import type { InputError } from '../../src/base/index.js';
import { backup, bars, head, note, partwise, rest } from '../score/build.js';

const repaired = (content: string): string => repairForEngraving(partwise(bars([content]))).xml;

test('a chord sign right after a step back in time goes, its note stays', () => {
  const xml = repaired(note('C4', 2, { id: 'a' }) + backup(2) + note('E4', 2, { id: 'b', chord: true }));
  expect(xml).not.toContain('<chord/>');
  expect(xml.match(/<note /g)).toHaveLength(2);
});

test('a chord sign at the start of a bar goes, one after a note stays', () => {
  const xml = repaired(note('C4', 2, { chord: true }) + note('E4', 2, { chord: true }));
  expect(xml.match(/<chord\/>/g)).toHaveLength(1);
});

test('two staves that are used but not declared are declared before the clef', () => {
  const xml = repaired(head('4/4', '<clef><sign>G</sign><line>2</line></clef>') + note('C4', 2, { staff: 1 }) + backup(2) + note('C3', 2, { staff: 2 }));
  expect(xml).toContain('</time><staves>2</staves><clef>');
});

test('declared staves are left alone', () => {
  const xml = repaired(head('4/4', '<staves>2</staves>') + note('C3', 2, { staff: 2 }));
  expect(xml.match(/<staves>/g)).toHaveLength(1);
});

test('a nonsensical stave number does not ask for more than eight staves', () => {
  expect(repaired(note('C3', 2, { staff: 9999 }))).toContain('<staves>8</staves>');
});

test('beams of notes that are not printed go, those of printed notes stay', () => {
  const beamed = { inside: '<beam number="1">begin</beam>' };
  expect(repaired(note('C4', 1, { ...beamed, attributes: 'print-object="no"' }))).not.toContain('<beam');
  expect(repaired(note('C4', 1, beamed))).toContain('<beam');
});

test('rests gathered over several bars are written out again', () => {
  const xml = repaired(head('4/4', '<measure-style><multiple-rest>4</multiple-rest></measure-style>') + rest(8));
  expect(xml).not.toContain('multiple-rest');
});

test('an analyst’s note in a harmony element goes, a chord symbol stays', () => {
  const harmony = (kind: string): string => `<harmony><root><root-step>C</root-step></root><kind>${kind}</kind></harmony>`;
  expect(repaired(harmony('none') + note('C4', 2))).not.toContain('<harmony');
  expect(repaired(harmony('dominant') + note('C4', 2))).toContain('<harmony');
});

test('only the wanted part is left, without its name', () => {
  const xml = partwise([
    { id: 'P1', name: 'Voice', measures: bars([note('C5', 8)]) },
    { id: 'P2', name: 'Piano', measures: bars([note('C3', 8, { id: 'kept' })]) },
  ]);
  const { xml: copy, noteIds } = repairForEngraving(xml, { part: 'P2' });
  expect(noteIds).toEqual(['kept']);
  expect(copy).not.toContain('Voice');
  expect(copy).not.toContain('Piano');
});

test('every pitched note has a plain number and its own id back by it; rests have none', () => {
  const { xml, noteIds } = repairForEngraving(partwise(bars([note('C4', 2, { id: '"&lt;odd id' .replaceAll('"', '&quot;') }) + rest(2) + note('D4', 2, { id: 'second' })])));
  expect(noteIds).toEqual(['"<odd id', 'second']);
  expect(xml).toContain('id="bw-0"');
  expect(xml).toContain('id="bw-1"');
  expect(xml).not.toContain('odd');
});

test('a timewise score is turned into parts', () => {
  const xml = `<score-timewise><part-list><score-part id="P1"><part-name>x</part-name></score-part></part-list>
    <measure number="1"><part id="P1">${head()}${note('C4', 8, { id: 'a' })}</part></measure>
    <measure number="2"><part id="P1">${note('D4', 8, { id: 'b' })}</part></measure></score-timewise>`;
  const { xml: copy, noteIds } = repairForEngraving(xml);
  expect(noteIds).toEqual(['a', 'b']);
  expect(copy.match(/<measure /g)).toHaveLength(2);
  expect(copy).toContain('<score-partwise');
});

test('cut XML is an input error that names the line', () => {
  expect(() => repairForEngraving('<score-partwise>\n<part')).toThrow(expect.objectContaining({ name: 'InputError', code: 'not-well-formed', place: { line: 2 } }) as InputError);
});

test.each([
  // divisions are 2 to the crotchet
  [8, '<type>whole</type>'], [6, '<type>half</type><dot/>'], [7, '<type>half</type><dot/><dot/>'], [4, '<type>half</type>'], [2, '<type>quarter</type>'], [1, '<type>eighth</type>'],
])('a note of %s divisions without a printed value gets its value', (length, value) => {
  expect(repaired(note('C4', length))).toContain(`<voice>1</voice>${value}`);
});

test('a tuplet’s note is printed longer than it sounds', () => {
  // three in the time of two crotchets: each sounds 4/3 divisions of 2, rounded to 1.3333, and is printed as a crotchet
  const triplet = '<time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>';
  expect(repaired(note('C4', 1.3333, { inside: triplet }))).toContain('<type>quarter</type><time-modification>');
});

test('a printed value that is there stays, a rest of the whole bar gets none', () => {
  expect(repaired(note('C4', 8, { inside: '<type>half</type>' })).match(/<type>/g)).toHaveLength(1);
  expect(repaired('<note><rest measure="yes"/><duration>8</duration></note>')).not.toContain('<type>');
});
