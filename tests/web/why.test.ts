import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Observation } from '../../src/judge/index.js';
import { WHY } from '../../src/web/whyTable.js';
import { whyView } from '../../src/web/whyView.js';
import { openFurnishedRoom, REVIEW } from './room.js';

const JUDGES = new URL('../../src/judge/', import.meta.url);

/** Names that the judges' files write after "kind:", in conditions, too; no list by hand could follow them. */
function kindsInSource(): readonly string[] {
  const files = readdirSync(JUDGES).filter((name) => name.endsWith('.ts') && !/^(types|decisions|readDecisions)\.ts$/.test(name));
  return files.flatMap((name) => {
    const text = readFileSync(new URL(name, JUDGES), 'utf8').replace(/\/\*[\s\S]*?\*\//g, '');
    return [...text.matchAll(/\bkind: ([^,;{}\n]*)/g)].flatMap(([, value = '']) => [...value.replace(/=== '[^']*'/g, '').matchAll(/'(\w+)'/g)].map(([, kind = '']) => kind));
  });
}

/** Kinds of other things than remarks. */
const NO_REMARKS = new Set(['praise', 'silent', 'split', 'dotted', 'even']);

const observation = (over: Partial<Observation>): Observation => ({
  aspect: 'pedal', kind: 'gap', hand: null, topic: '', places: [{ fromBar: 3, toBar: 3, pass: 1, attempt: 1, notes: [], startS: 4, weight: 0.5 }],
  measured: { value: 0.412, unit: 's', threshold: 0.2 }, weight: 0.5, confidence: 0.7, text: '', advice: '', ...over,
});
const linesOf = (one: Observation): readonly string[] => whyView(one, 'british').lines.map(({ term, text }) => `${term}: ${text}`);

describe('why a remark is made', () => {
  it('is told for every kind that the judges write', () => {
    const known = new Set(Object.values(WHY).flatMap((kinds) => Object.keys(kinds)));
    const kinds = new Set(kindsInSource());
    expect(kinds.size).toBeGreaterThan(40);
    expect([...kinds].filter((kind) => !known.has(kind) && !NO_REMARKS.has(kind))).toEqual([]);
  });

  it('says what was measured, against what, from where on and why there, and how sure it is', () => {
    expect(linesOf(observation({}))).toEqual([
      'Measured: how long nothing sounds before the new chord: here 0.41 s.',
      'Against: a line that is written without a rest.',
      'Said: from 0.2 s on: gaps of 30 ms pass as legato, and dampers take 0.1 to 0.2 s; ends of phrases may breathe.',
      'How sure: fairly sure; listen before you say it.',
    ]);
  });

  it('speaks of limits from above, of several places, and in American words', () => {
    const short = observation({ aspect: 'lengths', kind: 'shortNote', measured: { value: 38, unit: '%', threshold: 50 }, confidence: 0.9 });
    expect(linesOf(short)[2]).toMatch(/^Said: from 50 % down: /);
    expect(linesOf(short)[3]).toBe('How sure: sure that it happened and is no expression.');
    const [place] = short.places;
    expect(linesOf({ ...short, places: [place!, place!] })[0]).toContain('38 % at the plainest place');
    expect(whyView(observation({ aspect: 'rhythm', kind: 'straight', measured: { value: 1.1, unit: 'to one', threshold: 1.3 } }), 'american').lines[0]?.text).toContain('the first eighth note to the second');
  });

  it('stands at every remark of a review', async () => {
    const room = await openFurnishedRoom();
    const { body } = await room.call(REVIEW);
    const remarks = body.match(/<li data-bar="[^"]*" data-bars="[^"]*" data-notes=/g)?.length ?? 0;
    expect(remarks).toBeGreaterThan(0);
    expect(body.match(/<dt>Measured<\/dt>/g)?.length).toBeGreaterThanOrEqual(remarks);
  });
});
