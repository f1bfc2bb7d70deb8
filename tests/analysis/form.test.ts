import { describe, expect, it } from 'vitest';
import { demoFiles } from '../../src/demo/index.js';
import { findForm } from '../../src/analysis/index.js';
import type { Form, Section } from '../../src/analysis/index.js';
import { analyseHarmony } from '../../src/harmony/index.js';
import { readScore, type Score } from '../../src/score/index.js';
import { score, type WrittenBar } from '../align/build.js';
import { barline, direction, repeatEnd, repeatStart } from '../score/build.js';
import { analysed } from './harmonies.js';

const DOUBLE = barline('<bar-style>light-light</bar-style>');

/** An eight-bar tune in C, four bars to a half close and four home. */
const TUNE = ['C5 E5 G5/2', 'A5 F5 D5/2', 'B4 D5 G5 F5', 'E5 D5/3', 'C5 E5 G5/2', 'A5 F5 D5/2', 'B4 D5 F5 B4', 'C5/4'];
const BASS = ['C3/2 E3/2', 'F3/2 D3/2', 'G3/4', 'G2/4', 'C3/2 E3/2', 'F3/2 D3/2', 'G2/4', 'C3/4'];
/** Eight bars of something else. */
const OTHER = ['E4/0.5 F#4/0.5 G4/0.5 A4/0.5 B4/2', 'B4/3 r', 'A4/0.5 B4/0.5 C5/0.5 D5/0.5 E5/2', 'E5/3 r', 'D#5/0.5 E5/0.5 F#5/0.5 D#5/0.5 B4/2', 'G4/3 r', 'F#4/0.5 G4/0.5 A4/0.5 F#4/0.5 D#4/2', 'E4/3 r'];
const OTHER_BASS = OTHER.map((_, i) => (i % 2 === 0 ? 'r E3+B3 E3+B3 E3+B3' : 'E3/4'));

const bars = (right: readonly string[], left: readonly string[], last = ''): WrittenBar[] =>
  right.map((text, i) => ({ right: text, left: left[i] ?? 'r/4', ...(i === right.length - 1 && last !== '' ? { after: last } : {}) }));

const A = (last = ''): WrittenBar[] => bars(TUNE, BASS, last);
const B = (last = ''): WrittenBar[] => bars(OTHER, OTHER_BASS, last);

const formOf = (written: Score): Form => findForm(written, analyseHarmony(written));

/** "A 1-8": name and printed bars. */
const named = (written: Score, form: Form): string[] =>
  form.sections.map(({ name, fromBar, toBar }) => `${name} ${written.bars[fromBar]!.number}-${written.bars[toBar]!.number}`);

/** "close 7-8": kind and printed bars, the amount where there is one. */
const changes = (written: Score, { changes: list }: Section): string[] =>
  list.map(({ kind, fromBar, toBar, amount }) => `${kind} ${written.bars[fromBar]!.number}-${written.bars[toBar]!.number}${amount === 0 ? '' : ` ${amount}`}`);

describe('sections', () => {
  it('finds A B A between double bars, the return exact', () => {
    const written = score([...A(DOUBLE), ...B(DOUBLE), ...A()]);
    const form = formOf(written);
    expect(named(written, form)).toEqual(['A 1-8', 'B 9-16', 'A 17-24']);
    expect(form.sections[2]).toMatchObject({ returnOf: 0, variant: 0, changes: [], lengthBars: 8 });
  });

  it('finds the return without any double bar', () => {
    const written = score([...A(), ...B(), ...A()]);
    expect(named(written, formOf(written)).filter((name) => name.startsWith('A'))).toEqual(['A 1-8', 'A 17-24']);
  });

  it('tells a close that differs', () => {
    const again = A();
    again[6] = { right: 'A4 B4 C5 D5', left: 'F2/4' };
    again[7] = { right: 'E5/4', left: 'C2/4' };
    const written = score([...A(DOUBLE), ...B(DOUBLE), ...again]);
    const last = formOf(written).sections[2]!;
    expect(last.name).toBe("A'");
    expect(changes(written, last)).toEqual(['close 23-24']);
  });

  it('tells that the left hand differs', () => {
    const again = bars(TUNE, BASS.map((text) => text.replace(/(\w)(\d)/g, (_, letter: string, octave: string) => `${letter}${Number(octave) - 1}`).replace(/^r.*/, 'r/4')));
    const written = score([...A(DOUBLE), ...B(DOUBLE), ...again]);
    expect(changes(written, formOf(written).sections[2]!)).toEqual(['leftHand 17-24']);
  });

  it('tells an octave higher', () => {
    const up = (text: string): string => text.replace(/([A-G])(\d)/g, (_, letter: string, octave: string) => `${letter}${Number(octave) + 1}`);
    const written = score([...A(DOUBLE), ...B(DOUBLE), ...bars(TUNE.map(up), BASS.map(up))]);
    expect(changes(written, formOf(written).sections[2]!)).toEqual(['transposed 17-24 12']);
  });

  it('tells where a return goes its own way', () => {
    const again = [...A().slice(0, 4), ...B().slice(0, 4)];
    const written = score([...A(DOUBLE), ...B(DOUBLE), ...again]);
    expect(changes(written, formOf(written).sections[2]!)).toEqual(['leaves 21-24']);
  });

  it('calls bars of accompaniment before the tune an introduction', () => {
    const vamp: WrittenBar[] = [1, 2].map(() => ({ right: 'r/4', left: 'C3 E3+G3 C3 E3+G3' }));
    const under = TUNE.map(() => 'C3 E3+G3 C3 E3+G3');
    const written = score([...vamp, ...bars(TUNE, under), ...B(), ...bars(TUNE, under)]);
    expect(named(written, formOf(written))[0]).toBe('introduction 1-2');
  });

  it('takes the page’s word for a coda', () => {
    const coda: WrittenBar[] = [{ right: 'C5 C5 C5/2', left: 'C3/4', before: direction('<words>Coda</words>') }, { right: 'G4 E4 C4/2', left: 'C3/4' }, { right: 'C4/4', left: 'C2/4' }];
    const written = score([...A(DOUBLE), ...B(DOUBLE), ...A(DOUBLE), ...coda]);
    expect(named(written, formOf(written))).toEqual(['A 1-8', 'B 9-16', 'A 17-24', 'coda 25-27']);
  });

  it('gives the order as played, repeats written out', () => {
    const first = A(repeatEnd);
    first[0] = { ...first[0]!, before: repeatStart };
    expect(formOf(score([...first, ...B()])).played).toEqual([0, 0, 1]);
  });

  it('counts one of two endings', () => {
    const first = A(barline('<ending number="1" type="stop"/><repeat direction="backward"/>'));
    first[7] = { ...first[7]!, before: barline('<ending number="1" type="start"/>', 'left') };
    const second: WrittenBar = { right: 'C5/4', left: 'C2/4', before: barline('<ending number="2" type="start"/>', 'left'), after: barline('<ending number="2" type="stop"/>') };
    const written = score([...first, second, ...B()]);
    const form = formOf(written);
    expect(named(written, form)).toEqual(['A 1-9', 'B 10-17']);
    expect(form.sections[0]!.lengthBars).toBe(8);
  });

  it('leaves a piece without returns and double bars whole', () => {
    const written = score([...B()]);
    expect(named(written, formOf(written))).toEqual(['A 1-8']);
  });
});

describe('the demo pieces', () => {
  // forms and phrases as their composer wrote them down at the head of each piece
  const files = demoFiles();
  const demo = (slug: string): Score => {
    const file = files.find(({ path }) => path === `${slug}/score.musicxml`)!;
    return readScore(file.bytes, { fileName: file.path });
  };

  it('barcarolle: A, B, A’ turned aside, coda', () => {
    const written = demo('rowing-home');
    const form = formOf(written);
    expect(named(written, form)).toEqual(['A 1-8', 'B 9-16', "A' 17-23", 'coda 24-30']);
    // double notes in the right hand, bars 18-20; bar 8 has no counterpart
    expect(changes(written, form.sections[2]!)).toEqual(['rightHand 18-20 1', 'shorter 17-23 1']);
    expect(form.phrases.slice(0, 5).map(({ to }) => written.bars[to.barIndex]!.number)).toEqual(['4', '8', '12', '16', '20']);
  });

  it('march: A with two endings, B, A’ with another last bar', () => {
    const written = demo('quayside-march');
    const form = formOf(written);
    expect(named(written, form)).toEqual(['A 1-9', 'B 10-17', "A' 18-25"]);
    expect(form.played.map((index) => form.sections[index]!.name)).toEqual(['A', 'A', 'B', "A'"]);
    expect(changes(written, form.sections[2]!)).toEqual(['close 25-25']);
  });

  it('evening piece: the return begins with the broken tenth and goes its own way after three bars', () => {
    const written = demo('evening-over-skerrowby');
    const form = formOf(written);
    const back = form.sections.find(({ returnOf }) => returnOf === 0)!;
    expect(back.fromBar).toBe(21);
    expect(changes(written, back).at(-1)).toMatch(/^leaves 24-/);
  });

  it('quick piece: the opening comes back in bar 26', () => {
    const written = demo('gull-chase');
    const form = formOf(written);
    expect(named(written, form)).toEqual(['A 1-17', 'B 18-25', "A' 26-33"]);
    expect(changes(written, form.sections[2]!)).toEqual(['leaves 30-33']);
  });
});

describe('phrases', () => {
  it('end with the last harmony and begin after a rest', () => {
    const written = score([{ right: 'C5 D5 E5 F5' }, { right: 'G5/3 C5' }, { right: 'D5 E5 F5 D5' }, { right: 'C5/4' }].map((bar) => ({ ...bar, left: 'C3/4' })));
    const rested = score([{ right: 'C5 D5 E5 F5' }, { right: 'G5/2 r C5' }, { right: 'D5 E5 F5 D5' }, { right: 'C5/4' }].map((bar) => ({ ...bar, left: 'C3/4' })));
    const form = (one: Score): Form => findForm(one, analysed(one, ['1 C', '2 G', '3 G7', '4 C'], { ends: ['2', '4'] }));
    // without a rest the phrase ends with its bar; with one, the upbeat on 4 belongs to the next
    expect(form(written).phrases.map(({ from, to }) => [from.barIndex, from.offset, to.barIndex, to.offset])).toEqual([[0, 0, 1, 0], [2, 0, 3, 0]]);
    expect(form(rested).phrases.map(({ from, to }) => [from.barIndex, from.offset, to.barIndex, to.offset])).toEqual([[0, 0, 1, 0], [1, 3, 3, 0]]);
  });

  it('are none, like sections, where there are no notes', () => {
    expect(formOf(score(['r/4', 'r/4']))).toEqual({ phrases: [], sections: [], played: [] });
  });
});
