import { expect, it } from 'vitest';
import { marksShown } from '../../src/web/help.js';
import { openTestRoom } from './room.js';

it('tells how to begin, what the marks mean, how recordings come in, keys, tablet, cautions, on one page', async () => {
  const room = await openTestRoom();
  const { status, body } = await room.call('/help');
  expect(status).toBe(200);
  for (const id of ['begin', 'sending', 'marks', 'saying', 'pedal', 'keys', 'tablet', 'keeping', 'cautions']) {
    expect(body).toContain(`href="#${id}"`);
    expect(body).toContain(`<h2 id="${id}">`);
  }
  expect(body).toMatch(/Pain means stop[\s\S]*see a doctor/);
  expect(body).toMatch(/minors need consent/);
  expect(body).toMatch(/The teacher judges, not the program/);
});

it('draws every shape of the pencil', () => {
  const shapes = marksShown().map(({ svg }) => /class="mark mark-([a-z]+)"/.exec(svg)?.[1]);
  expect(shapes.sort()).toEqual(['added', 'early', 'late', 'look', 'missing', 'ring', 'stop', 'stretch', 'tick']);
});

it('is reached from every page', async () => {
  const room = await openTestRoom();
  for (const path of ['/', '/settings', '/nowhere']) expect((await room.call(path)).body).toContain('href="/help"');
});
