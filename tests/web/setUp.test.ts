import { describe, expect, it } from 'vitest';
import { openFurnishedRoom, openTestRoom, sample } from './room.js';

describe('settings', () => {
  it('ask nothing at the first start: everything has a usual value', async () => {
    const room = await openTestRoom();
    const { body } = await room.call('/');
    expect(body).toContain('<html lang="en-GB">');
    expect(body).toContain('href="/assets/a4.css" media="print"');
    expect(body).not.toMatch(/data-light|data-size/);
  });

  it.each([
    ['light', 'dark', 'data-light="dark"'], ['light', 'light', 'data-light="light"'], ['size', 'larger', 'data-size="larger"'], ['paper', 'letter', 'href="/assets/letter.css" media="print"'],
  ])('set %s to %s for every page', async (name, value, shown) => {
    const room = await openFurnishedRoom();
    expect((await room.post('/settings', { [name]: value, back: '/settings' })).headers.location).toBe('/settings');
    for (const path of ['/', '/settings', '/pieces/rowing-home', '/pupils/mei-castellow', '/nowhere']) expect((await room.call(path)).body).toContain(shown);
    expect((await room.call('/settings')).body).toMatch(new RegExp(`name="${name}" value="${value}" aria-pressed="true"`));
  });

  it('print on Letter where the words are American, unless it is set', async () => {
    const room = await openTestRoom();
    await room.post('/settings', { language: 'american', back: '/' });
    expect((await room.call('/')).body).toContain('/assets/letter.css');
    await room.post('/settings', { paper: 'a4', back: '/' });
    expect((await room.call('/')).body).toContain('/assets/a4.css');
  });

  it.each([{ light: 'pink' }, { size: '"><script>' }, { paper: 'a3' }, {}, { language: 'american', paper: 'a3' }])('refuse what there is not, and set nothing: %j', async (fields) => {
    const room = await openTestRoom();
    expect((await room.post('/settings', { ...fields, back: '/' })).status).toBe(422);
    expect([room.store.language(), room.store.setting('paper'), room.store.setting('light')]).toEqual(['british', null, null]);
  });
});

describe('the demo room', () => {
  it('says that it is invented, goes with one click, and comes back', async () => {
    const room = await openTestRoom();
    room.store.addPupil('Mei Castellow', { invented: true });
    room.store.addPiece({ title: 'Rowing Home', invented: true, score: sample('rowing-home/score.musicxml') });
    const desk = (await room.call('/')).body;
    expect(desk).toContain('every person, piece and playing in it is invented');
    expect(desk).toMatch(/action="\/settings\/demo"[\s\S]*value="away"/);
    expect((await room.post('/settings/demo', { demo: 'away' })).status).toBe(303);
    const empty = (await room.call('/')).body;
    expect(empty).not.toMatch(/Mei Castellow|Rowing Home|invented/);
    expect((await room.call('/settings')).body).toContain('The demo room is put away.');
    await room.post('/settings/demo', { demo: 'back' });
    expect((await room.call('/')).body).toContain('Mei Castellow');
  });
});

describe('consent', () => {
  it('is asked once about a new pupil, never about an invented one', async () => {
    const room = await openFurnishedRoom();
    room.store.addPupil('Ina Vauld', { invented: true });
    for (const path of ['/', '/pupils/mei-castellow']) {
      const { body } = await room.call(path);
      expect(body).toContain('<strong>Mei Castellow</strong> is new here');
      expect(body).toContain('local law decides');
      expect(body).not.toContain('<strong>Ina Vauld</strong> is new here');
    }
    const { status, headers } = await room.post('/pupils/mei-castellow/consent', { consent: 'given', back: '/' });
    expect([status, headers.location]).toEqual([303, '/']);
    expect((await room.call('/')).body).not.toContain('is new here');
    expect((await room.call('/pupils/mei-castellow')).body).toContain('you have the consent to keep recordings');
    await room.post('/pupils/mei-castellow/consent', { consent: 'none', back: '//evil.example' });
    expect((await room.call('/')).body).toContain('is new here');
  });

  it('takes no other answer', async () => {
    const room = await openFurnishedRoom();
    expect((await room.post('/pupils/mei-castellow/consent', { consent: 'maybe' })).status).toBe(422);
    expect((await room.post('/pupils/nobody/consent', { consent: 'given' })).status).toBe(404);
    expect(room.store.consentOf(1)).toBeNull();
  });
});
