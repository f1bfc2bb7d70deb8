import { describe, expect, it } from 'vitest';
import type { Lesson, Pupil } from '../../src/store/index.js';
import { nextLesson, weekAhead } from '../../src/web/lessons.js';
import { spanOf } from '../../src/web/pupilStrip.js';
import { openFurnishedRoom, REVIEW, sample } from './room.js';

/** A pupil, invented. */
function pupil(name: string, lesson: Lesson | null, id = 1): Pupil {
  return { id, slug: name, name, pronoun: null, born: null, invented: false, lesson, createdAt: '', removedAt: null };
}

/** Wednesday 8 October 2025, noon. */
const NOON = new Date('2025-10-08T12:00:00');

describe('the next lesson', () => {
  it.each([
    [{ day: 3, time: '16:30' }, 'today at 16:30'],
    // begun an hour ago to the minute: not over yet; a minute more, and it is the next week's
    [{ day: 3, time: '11:00' }, 'today at 11:00'],
    [{ day: 3, time: '10:59' }, 'next Wednesday at 10:59'],
    [{ day: 3, time: null }, 'today'],
    [{ day: 4, time: null }, 'tomorrow'],
    [{ day: 7, time: '09:00' }, 'on Sunday at 09:00'],
    [{ day: 2, time: null }, 'on Tuesday'],
    [null, ''],
  ])('of %j is %s', (lesson, words) => {
    expect(nextLesson(pupil('a', lesson), NOON)).toBe(words);
  });

  it('stands under its day, by time, with what waits', () => {
    const pupils = [pupil('late', { day: 3, time: '17:00' }, 1), pupil('some time', { day: 3, time: null }, 2), pupil('early', { day: 3, time: '15:00' }, 3), pupil('never', null, 4), pupil('sunday', { day: 7, time: '10:00' }, 5)];
    const days = weekAhead(pupils, [{ pupilId: 1, unheard: 2, open: 1 }, { pupilId: 3, unheard: 0, open: 3 }], NOON);
    expect(days.map(({ name, pupils: coming }) => [name, coming.map(({ pupil: { name: who }, waits }) => `${who}: ${waits}`)])).toEqual([
      ['Today', ['early: three comments open', 'late: two not heard, one comment open', 'some time: ']],
      ['Sunday', ['sunday: ']],
    ]);
  });
});

describe('the weeks of a strip', () => {
  it('are whole, from Monday to Monday, to now where that is near', () => {
    // 1 October 2025 is a Wednesday, its Monday 29 September; now is in the week of 6 October
    const near = spanOf(['2025-10-01T18:00:00'], NOON);
    expect([new Date(near.fromMs), new Date(near.toMs)]).toEqual([new Date('2025-09-29T00:00:00'), new Date('2025-10-13T00:00:00')]);
    // 1 August is more than six weeks ago: the strip ends with its own week
    const far = spanOf(['2025-08-01T18:00:00'], NOON);
    expect([new Date(far.fromMs), new Date(far.toMs)]).toEqual([new Date('2025-07-28T00:00:00'), new Date('2025-08-04T00:00:00')]);
  });
});

describe('the desk and the pupil’s page', () => {
  it('say whether a recording needs the teacher, once it was read behind the page', async () => {
    const room = await openFurnishedRoom();
    expect((await room.call('/')).body).toContain('being read; look again in a moment');
    await expect.poll(async () => (await room.call('/')).body, { timeout: 20_000 }).toContain('<strong class="needs">needs you</strong>');
    const { body } = await room.call('/pupils/mei-castellow');
    expect(body).toContain('first recording of this piece');
    expect(body).toContain('class="strip"');
    // the very same playing a week later: all of it was there last week
    const { id: scoreId } = room.store.scoreOfPiece(1);
    const again = { ...sample('rowing-home/mei-castellow-2025-10-07.mid'), name: 'again.mid' };
    room.store.addRecording({ pupilId: 1, scoreId, file: { ...again, bytes: Buffer.concat([again.bytes, Buffer.from('XXXX\0\0\0\0')]) }, line: '', receivedAt: '2025-10-14T20:15:00' });
    await expect.poll(async () => (await room.call('/')).body, { timeout: 20_000 }).toMatch(/<strong class="same">the same \w+ \w+ as last week<\/strong>/);
  });

  it('take a pupil off the lists and bring everything back', async () => {
    const room = await openFurnishedRoom();
    await room.post('/pupils/mei-castellow/remove', {});
    expect((await room.call('/')).body).not.toContain('Mei Castellow');
    expect((await room.call(REVIEW)).status).toBe(404);
    expect((await room.call('/pupils/mei-castellow')).body).toContain('Nothing is lost');
    expect((await room.call('/copies')).body).toContain('Mei Castellow');
    await room.post('/pupils/mei-castellow/restore', {});
    expect((await room.call(REVIEW)).status).toBe(200);
  });

  it('rename, and set the lesson', async () => {
    const room = await openFurnishedRoom();
    expect((await room.post('/pupils/mei-castellow/name', { name: 'M. C.' })).headers.location).toBe('/pupils/m-c');
    await room.post('/pupils/m-c/lesson', { day: '3', time: '16:30' });
    expect((await room.call('/pupils/m-c')).body).toContain('next lesson today at 16:30');
    expect((await room.call('/')).body).toContain('Who comes next');
    expect((await room.post('/pupils/m-c/lesson', { day: '9', time: '' })).status).toBe(422);
    await room.post('/pupils/m-c/lesson', { day: '', time: '' });
    expect((await room.call('/pupils/m-c')).body).toContain('no day for lessons yet');
  });

  it('take a recording off and put it back where that was done', async () => {
    const room = await openFurnishedRoom();
    const { headers } = await room.post(`${REVIEW}/remove`, { back: 'pupil' });
    expect(headers.location).toBe('/pupils/mei-castellow?removed=1');
    expect((await room.call(headers.location ?? '')).body).toContain('was taken off.');
    await room.post(`${REVIEW}/restore`, { back: 'pupil' });
    expect(room.store.recordings()).toHaveLength(1);
  });
});
