import { expect, test } from 'vitest';
import { createToolkit, engraveScore } from '../../src/engrave/index.js';
import { SaxesParser } from 'saxes';
import { bars, direction, head, note, partwise } from '../score/build.js';
import { readText } from '../score/read.js';
import { xmlOf } from './fixture.js';

const HOSTILE = '&lt;/text&gt;&lt;script&gt;alert(1)&lt;/script&gt;&quot; onload=&quot;alert(2)';
const LYRIC = `<lyric><syllabic>single</syllabic><text>${HOSTILE}</text></lyric>`;

async function hostileSvg(): Promise<{ defs: string; svg: string; id: string }> {
  const words = direction(`<words>${HOSTILE}</words>`) + direction(`<rehearsal>${HOSTILE}</rehearsal>`) + direction(`<dynamics><other-dynamics>${HOSTILE}</other-dynamics></dynamics>`);
  const id = '"><script>alert(3)</script>';
  const sung = note('C4', 8, { id: '&quot;&gt;&lt;script&gt;alert(3)&lt;/script&gt;' }).replace('</note>', `${LYRIC}</note>`);
  const xml = partwise(bars([{ content: head() + words + sung, attributes: `number="${HOSTILE}"` }, { content: note('D4', 8), attributes: `number="${HOSTILE}"` }]), `<work><work-title>${HOSTILE}</work-title></work>`);
  const score = readText(xml);
  const { systems, defs } = await engraveScore(xmlOf(score), { widthPx: 656, bars: score.bars, toolkit: createToolkit() });
  return { defs, svg: systems.map((system) => system.svg).join(''), id };
}

test('hostile titles, words, lyrics, bar numbers and ids come out as text alone', async () => {
  const { svg, defs, id } = await hostileSvg();
  const names = new Set<string>();
  const attributes = new Set<string>();
  const notes: string[] = [];
  const parser = new SaxesParser();
  parser.on('opentag', (tag) => {
    names.add(tag.name);
    for (const [name, value] of Object.entries(tag.attributes)) {
      attributes.add(name);
      if (name === 'data-note') notes.push(value);
    }
  });
  parser.write(`<all>${defs}${svg}</all>`).close();
  expect([...names].filter((name) => !['all', 'svg', 'defs', 'g', 'path', 'use', 'text', 'polygon', 'polyline', 'rect', 'ellipse', 'circle'].includes(name))).toEqual([]);
  expect([...attributes].filter((name) => /^on|^style$|^xlink/.test(name))).toEqual([]);
  expect(notes).toContain(id);
  // the words are there, as words
  expect(svg).toContain('&lt;script&gt;');
});

test('no styles, no scripts, no colours but the page’s own', async () => {
  const { svg } = await hostileSvg();
  expect(svg).not.toMatch(/<style|<script| style=|black|#000/);
  expect(svg).toContain('fill="currentColor"');
});
