import { describe, expect, it } from 'vitest';
import { bars, note, partwise } from './build.js';
import { expectWarning, readBars, readText, warningTexts } from './read.js';

/** Ids of all `note` tags of a text, in order; null for a tag without one. */
function idsIn(xml: string): readonly (string | null)[] {
  return [...xml.matchAll(/<note(?=[\s>])([^>]*)>/g)].map((tag) => /\sid="([^"]*)"/.exec(tag[1]!)?.[1] ?? null);
}

describe('ids of notes', () => {
  it('a note keeps the id of the file, and a text with ids everywhere is left as it is', () => {
    const text = partwise(bars([note('C4', 4, { id: 'one' }) + note('D4', 4, { id: 'two' })]));
    const score = readText(text);
    expect(score.notes.map((n) => n.id)).toEqual(['one', 'two']);
    expect(score.xml).toBe(text);
  });

  it('notes without ids get them, the same ones every time, written into the copy', () => {
    const text = partwise(bars([note('C4', 4) + note('D4', 4, { id: 'own', attributes: 'default-x="3"' })]));
    const score = readText(text);
    expect(score.notes.map((n) => n.id)).toEqual([expect.stringMatching(/^note-/), 'own']);
    expect(idsIn(score.xml!)).toEqual(score.notes.map((n) => n.id));
    expect(readText(text).notes).toEqual(score.notes);
  });

  it('reading the copy again gives the same ids', () => {
    const score = readBars([note('C4', 4) + note('E4', 4, { chord: true }) + note('D4', 4)]);
    expect(readText(score.xml!).notes.map((n) => n.id)).toEqual(score.notes.map((n) => n.id));
  });

  it('comments, character data and tags that only begin like a note are never touched', () => {
    const odd = '<!-- <note> a bar was here --><credit-words><![CDATA[<note>]]></credit-words><note-size type="cue">60</note-size>';
    const text = partwise(bars([note('C4', 8)]), odd);
    const score = readText(text);
    expect(score.xml).toContain(odd);
    expect(score.notes).toHaveLength(1);
    expect(score.xml!.replace(` id="${score.notes[0]!.id}"`, '')).toBe(text);
  });

  it('bars inside comments are no bars', () => {
    const text = partwise(bars([note('C4', 8)])).replace(
      '</part>',
      '<!-- <measure number="2"><note><rest/><duration>8</duration></note></measure> --></part>',
    );
    expect(readText(text).bars).toHaveLength(1);
  });

  it('an attribute value with a closing bracket in it does not end the tag', () => {
    const text = partwise(bars([note('C4', 8, { attributes: 'color="a>b"' })]));
    expect(readText(text).xml).toContain(' color="a>b">');
  });

  it('ids given here avoid all ids that the file has, of bars too', () => {
    const score = readText(partwise(bars([{ content: note('C4', 8), attributes: 'number="1" id="note-1"' }])));
    expect(score.notes[0]!.id).not.toBe('note-1');
    expect(score.xml).toContain('id="note-1"');
  });

  it('an id used twice is made unique, in the copy too, with a warning', () => {
    const score = readBars([note('C4', 4, { id: 'same' }) + note('D4', 4, { id: 'same' }), note('E4', 8, { id: 'same' })]);
    expect(new Set(score.notes.map((n) => n.id)).size).toBe(3);
    expect(score.notes[0]!.id).toBe('same');
    expect(idsIn(score.xml!)).toEqual(score.notes.map((n) => n.id));
    expectWarning(score, '1', /same id.*bars 1 and 2/);
  });

  it('parts that are not read are left as they are', () => {
    const piano = { id: 'P', name: 'Piano', measures: bars([note('C4', 8)]) };
    const flute = { id: 'F', name: 'Flute', measures: bars([note('C5', 8)]) };
    expect(idsIn(readText(partwise([flute, piano])).xml!)).toEqual([null, expect.stringMatching(/^note-/)]);
  });

  it('empty ids count as none, without a warning', () => {
    const score = readBars([note('C4', 8, { id: '' })]);
    expect(score.notes[0]!.id).not.toBe('');
    expect(idsIn(score.xml!)).toEqual([score.notes[0]!.id]);
    expect(warningTexts(score)).toEqual([]);
  });
});
