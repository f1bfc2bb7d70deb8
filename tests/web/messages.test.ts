import { describe, expect, it } from 'vitest';
import { historyOf } from '../../src/web/commentHistory.js';
import { commentMessage, reviewMessage } from '../../src/web/message.js';
import { phrasesIn } from '../../src/web/phrases.js';
import { openFurnishedRoom, REVIEW } from './room.js';

const KEY = '0b6d3c1e-6f0f-4c0a-9d3e-3c1f0a7b9d11';

/** A comment on bars 5 to 8. */
function on(text: string, whole = false) {
  return { whole, where: whole ? 'The whole recording' : 'Bars 5–8', text };
}

describe('a comment as a message', () => {
  it('says piece and place, unless its own words say the place', () => {
    expect(commentMessage({ piece: 'Rowing Home' }, on('Count four.'))).toBe('Rowing Home, bars 5–8: Count four.');
    expect(commentMessage({ piece: 'Rowing Home' }, on('Right hand, bars 5–8: count four.'))).toBe('Rowing Home: Right hand, bars 5–8: count four.');
    expect(commentMessage({ piece: 'Rowing Home' }, on('Well done.', true))).toBe('Rowing Home: Well done.');
  });
});

describe('a review as a message', () => {
  const parts = { pupil: 'Mei Castellow', piece: 'Rowing Home', day: 'Tuesday 7 October' };
  const praise = { aspect: 'touch' as const, hand: null, places: [], weight: 1, text: 'Bars 1–4 sing.' };
  const remark = { observations: [], aspect: 'rhythm' as const, kind: 'longNoteDoubled', id: '', hand: null, places: [], text: 'Bar 7 waits.', advice: 'Practise the jump.', worth: 1 };

  it('says what goes well and what the teacher wrote', () => {
    const review = { worthSaying: [remark], goingWell: [praise] };
    expect(reviewMessage({ ...parts, comments: [on('A fine evening.', true), on('Count four.')], review })).toBe(
      'Mei, about your recording of Rowing Home on Tuesday 7 October:\n\nBars 1–4 sing.\n\nA fine evening.\nBars 5–8: Count four.',
    );
  });

  it('says what is worth saying where she wrote nothing', () => {
    expect(reviewMessage({ ...parts, comments: [], review: { worthSaying: [remark], goingWell: [] } })).toBe('Mei, about your recording of Rowing Home on Tuesday 7 October:\n\nBar 7 waits. Practise the jump.');
  });
});

describe('what a comment said before', () => {
  it('is what stood for more than ten minutes, the newest first', () => {
    // saved at 18:00, 18:01, 18:11 (ten minutes later to the second: still one writing) and 18:21:01
    const versions = [['one', '00:00'], ['two', '01:00'], ['three', '11:00'], ['four', '21:01']].map(([text = '', at = '']) => ({ text, savedAt: `2026-03-03T18:${at}.000Z` }));
    expect(historyOf(versions).map(({ text }) => text)).toEqual(['three']);
    expect(historyOf(versions.slice(0, 1))).toEqual([]);
  });
});

describe('her own phrases', () => {
  it('are sentences without their place, the most used first', () => {
    const texts = ['Count four semiquavers. Slower next time!', 'Right hand, bars 5–8: count four semiquavers.', 'Left hand alone first.\nBar 7: slower next time!', 'count four semiquavers.'];
    expect(phrasesIn(texts, [])).toEqual(['Count four semiquavers.', 'Slower next time!', 'Left hand alone first.']);
  });

  it('hold no pupil’s name, no bar by its number, nothing too short or too long', () => {
    expect(phrasesIn(['Well done, Mei!', 'Mei’s thumb is late.', 'Go back to bar 5 each time.', 'Good.', 'x'.repeat(201), 'Meicastellow is no name here.'], ['Mei Castellow'])).toEqual(['Meicastellow is no name here.']);
  });
});

describe('the page of a recording', () => {
  it('takes a comment on the whole, settles it, opens it again, and shows it as a message', async () => {
    const room = await openFurnishedRoom();
    await room.post(`${REVIEW}/comments`, { key: KEY, whole: 'yes', text: 'A fine <evening>.' });
    expect(room.store.comments(1)).toMatchObject([{ whole: true, text: 'A fine <evening>.', settledAt: null }]);
    expect((await room.call(REVIEW)).body).toContain('<p data-comment-text>A fine &lt;evening&gt;.</p>');
    await room.post(`${REVIEW}/comments/1/settle`, {});
    expect(room.store.comment(1)?.settledAt).not.toBeNull();
    await room.post(`${REVIEW}/comments/1/reopen`, {});
    expect(room.store.comment(1)?.settledAt).toBeNull();
    const { body } = await room.call(`${REVIEW}/message`);
    expect(body).toContain('Mei, about your recording of Rowing Home on Tuesday 7 October:');
    expect(body).toContain('A fine &lt;evening&gt;.');
    expect((await room.call(`${REVIEW}/message?comment=1`)).body).toContain('>Rowing Home: A fine &lt;evening&gt;.</textarea>');
  });

  it('is heard once it was opened, and when it is answered from the desk, with the ready sentences that were ticked', async () => {
    const room = await openFurnishedRoom();
    expect(room.store.recording(1)?.heardAt).toBeNull();
    const { headers } = await room.post(`${REVIEW}/comments`, { key: KEY, whole: 'yes', back: 'desk', text: 'Well done.', ready1: 'Bar 7: slower.' });
    expect(headers.location).toBe('/#recording-1');
    expect(room.store.comments(1)[0]?.text).toBe('Well done. Bar 7: slower.');
    expect(room.store.recording(1)?.heardAt).not.toBeNull();
    await room.post(`${REVIEW}/heard`, { heard: 'no' });
    expect(room.store.recording(1)?.heardAt).toBeNull();
    await room.call(REVIEW);
    expect(room.store.recording(1)?.heardAt).not.toBeNull();
  });
});
