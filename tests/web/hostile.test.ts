/** Names, titles, comments, file names and scores that try to be markup: every page of the room shows them as text. */
import { describe, expect, it } from 'vitest';
import { MEI_OCTOBER, openTestRoom, ROWING_HOME, sample, type TestRoom } from './room.js';

/** Breaks out of a text, of an attribute in either kind of quotes, of a script and of a comment, wherever it is not made safe. */
const EVIL = `"><i class=evil>' onfocus='evil()' " onfocus="evil()" </script><script>evil()</script> --> {{evil}} \${evil} ‮`;

/** What would stand in a page that has not made it safe. */
const SIGNS = [/<i class=evil/, /["'] onfocus=["']evil/, /<script>evil/];

/** In a score's own markup. */
const IN_XML = EVIL.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

/** A score whose title, composer, part and words are hostile. */
function hostileScore(): Uint8Array {
  const xml = new TextDecoder().decode(sample(ROWING_HOME).bytes);
  const words = `<direction placement="above"><direction-type><words>${IN_XML}</words></direction-type></direction>`;
  return new TextEncoder().encode(xml.replace(/<work-title>[^<]*/, `<work-title>${IN_XML}`).replace(/<part-name>[^<]*/, `<part-name>${IN_XML}`).replace(/(<measure [^>]*number="3"[^>]*>)/, `$1${words}`));
}

/** A room in which everything that can be hostile is. */
async function hostileRoom(): Promise<{ readonly room: TestRoom; readonly pupil: string; readonly piece: string }> {
  const room = await openTestRoom();
  const { store } = room;
  const pupil = store.addPupil(EVIL);
  store.setLesson(pupil.id, { day: 3, time: '16:30' });
  const piece = store.addPiece({ title: EVIL, composer: EVIL, score: { name: `${EVIL}.musicxml`, bytes: hostileScore() } });
  const scoreId = store.scoreOfPiece(piece.id).id;
  const add = (path: string, at: string): void => void store.addRecording({ pupilId: pupil.id, scoreId, file: { ...sample(path), name: `${EVIL}.mid` }, line: EVIL, receivedAt: at });
  add(MEI_OCTOBER, '2025-10-01T18:00:00.000Z');
  add('rowing-home/mei-castellow-2025-10-21.mid', '2025-10-07T18:00:00.000Z');
  add('quayside-march/asha-vellory-2025-10-16.mid', '2025-10-08T06:00:00.000Z');
  for (const [i, whole] of [true, false].entries()) {
    const { id } = store.addComment({ recordingId: 2, key: `key-${i}`, bars: [EVIL, EVIL], barIndexes: [3, 4], whole, text: EVIL });
    store.editComment(id, `${EVIL}!`);
  }
  store.addArrival({ file: { name: `${EVIL}.mid`, bytes: new Uint8Array([1]) }, pupilId: null, scoreId, line: EVIL });
  store.addArrival({ file: { name: `${EVIL}2.mid`, bytes: new Uint8Array([2]) }, pupilId: pupil.id, scoreId: null, line: '' });
  store.removeRecording(store.addRecording({ pupilId: pupil.id, scoreId, file: { name: `${EVIL}3.mid`, bytes: new Uint8Array([3]) }, line: EVIL }).recording.id);
  return { room, pupil: `/pupils/${encodeURIComponent(pupil.slug)}`, piece: `/pieces/${encodeURIComponent(piece.slug)}` };
}

/** Every page that shows something somebody typed or sent. @param at addresses of the pupil and the piece */
function pagesOf({ pupil, piece }: { readonly pupil: string; readonly piece: string }): readonly string[] {
  const review = `${pupil}/recordings/2`;
  const ofReview = ['', '?try=1', '?marks=notes', '?removed=1', '/message', '/message?comment=2', '/sheet', '/since/1', '/as-it-could-be', '/sound'].map((path) => review + path);
  return ['/', '/?show=unheard', '/?aside=1', `/?moved=2&pupil=${encodeURIComponent(EVIL)}&piece=${encodeURIComponent(EVIL)}`, '/?removed=4', '/copies', '/record', '/settings', '/help', pupil, `${pupil}?removed=4`, `${pupil}/erase`, piece, ...ofReview, `${pupil}/recordings/3`, `${review}?${encodeURIComponent(EVIL)}=${encodeURIComponent(EVIL)}`];
}

describe('hostile names, titles, comments and scores', () => {
  it('are text on every page', async () => {
    const { room, ...at } = await hostileRoom();
    // the desk reads what is new behind its back
    await room.call('/');
    for (const page of pagesOf(at)) {
      const { status, body } = await room.call(page);
      // a recording of another piece is told as unreadable, in words
      expect([200, 422], page).toContain(status);
      for (const sign of SIGNS) expect(body, `${page} ${String(sign)}`).not.toMatch(sign);
    }
    expect((await room.call(`${at.pupil}/recordings/2`)).body).toContain('&lt;i class=evil&gt;');
  });

  it('are text in what is said of a form that failed', async () => {
    const { room, pupil } = await hostileRoom();
    const answers = [
      await room.post(`${pupil}/recordings/2/comments`, { key: EVIL, text: EVIL }),
      await room.post(`${pupil}/recordings/2/comments/1`, { text: EVIL.repeat(200) }),
      await room.post(`${pupil}/erase`, { name: EVIL.slice(1) }),
      await room.post('/arrivals/1', { newPupil: EVIL }),
      await room.post(`${pupil}/recordings/2/move`, { pupil: EVIL }),
      await room.post('/settings', { language: EVIL, back: `/${EVIL}` }),
    ];
    for (const { body } of answers) for (const sign of SIGNS) expect(body).not.toMatch(sign);
  });

  it('give addresses and names of files that lead nowhere else', async () => {
    const { room, pupil } = await hostileRoom();
    expect(pupil).toMatch(/^\/pupils\/[\p{L}\p{N}%-]+$/u);
    const { headers } = await room.call(`${pupil}/copy`);
    expect(headers['content-disposition']).toMatch(/^attachment; filename=[\w.-]+\.zip$/);
  });
});
