import { describe, expect, it } from 'vitest';
import { InputError } from '../../src/base/index.js';
import { fileOf, furnishedStore, handClock, onBarSeven, ownFolder } from './folder.js';

describe('a pupil', () => {
  it('takes another name, and the address with it', () => {
    const store = furnishedStore();
    expect(store.renamePupil(1, 'N. F.')).toMatchObject({ name: 'N. F.', slug: 'n-f' });
    expect(store.pupil('nell-farrow')).toBeNull();
    expect(store.renamePupil(1, 'N. F.').slug).toBe('n-f');
    store.addPupil('Orla');
    expect(store.renamePupil(1, 'Orla').slug).toBe('orla-2');
  });

  it('has a weekly lesson where somebody said so', () => {
    const store = furnishedStore();
    expect(store.pupil('nell-farrow')?.lesson).toBeNull();
    expect(store.setLesson(1, { day: 7, time: '09:05' }).lesson).toEqual({ day: 7, time: '09:05' });
    expect(store.setLesson(1, { day: 1, time: null }).lesson).toEqual({ day: 1, time: null });
    expect(store.setLesson(1, null).lesson).toBeNull();
  });

  it.each([
    [{ day: 0, time: null }],
    [{ day: 8, time: null }],
    [{ day: 1.5, time: null }],
    [{ day: 1, time: '24:00' }],
    [{ day: 1, time: '9:05' }],
  ])('refuses the lesson %j', (lesson) => {
    const store = furnishedStore();
    expect(() => store.setLesson(1, lesson)).toThrow(InputError);
    expect(store.pupil('nell-farrow')?.lesson).toBeNull();
  });

  it('that is taken off the lists takes along what was sent, and brings it back', () => {
    const store = furnishedStore();
    store.addComment(onBarSeven('a', 'Slower.'));
    store.removePupil(1);
    expect([store.pupils().length, store.recordings().length, store.textsWritten().length, store.recording(1)]).toEqual([0, 0, 0, null]);
    expect(store.pupils({ removed: true }).map(({ name }) => name)).toEqual(['Nell Farrow']);
    store.restorePupil(1);
    expect([store.pupils().length, store.recordings().length, store.textsWritten().length]).toEqual([1, 1, 1]);
  });
});

describe('a recording', () => {
  it('is heard from the first time on, until it is put back', () => {
    const clock = handClock('2026-03-03T18:00:00.000Z');
    const store = furnishedStore(ownFolder(), clock.now);
    expect(store.countRecordings({ unheard: true })).toBe(1);
    store.setHeard(1, true);
    clock.set('2026-03-04T18:00:00.000Z');
    expect(store.setHeard(1, true).heardAt).toBe('2026-03-03T18:00:00.000Z');
    expect(store.countRecordings({ unheard: true })).toBe(0);
    expect(store.setHeard(1, false).heardAt).toBeNull();
  });

  it('that was taken off comes back by undo, and when it is sent again', () => {
    const store = furnishedStore();
    store.removeRecording(1);
    expect([store.recordings().length, store.recordings({ removed: true }).length]).toEqual([0, 1]);
    store.restoreRecording(1);
    expect(store.recordings()).toHaveLength(1);
    store.removeRecording(1);
    const { known, recording } = store.addRecording({ pupilId: 1, scoreId: 1, file: fileOf('again.mid', 'MThd'), line: '' });
    expect([known, recording.id, recording.removedAt]).toEqual([true, 1, null]);
  });

  it('knows the one before it: of the same pupil and piece, on the lists', () => {
    const store = furnishedStore();
    const add = (text: string, receivedAt: string, pupilId = 1) => store.addRecording({ pupilId, scoreId: 1, file: fileOf('x.mid', text), line: '', receivedAt }).recording;
    const orla = store.addPupil('Orla');
    const [early, other, late] = [add('b', '2026-03-01T08:00:00.000Z'), add('c', '2026-03-04T08:00:00.000Z', orla.id), add('d', '2026-03-05T08:00:00.000Z')];
    expect(store.recordingBefore(early)).toBeNull();
    expect(store.recordingBefore(other)).toBeNull();
    expect(store.recordingBefore(late)?.id).toBe(1);
    store.removeRecording(1);
    expect(store.recordingBefore(late)?.id).toBe(early.id);
  });

  it('goes to another pupil with what was written of it', () => {
    const store = furnishedStore();
    store.addComment(onBarSeven('a', 'Slower.'));
    const orla = store.addPupil('Orla');
    expect(store.moveRecording(1, { pupilId: orla.id, scoreId: 1, line: 'twice' })).toMatchObject({ pupil: { name: 'Orla' }, line: 'twice', comments: 1 });
    expect(store.commentsOfPupil(orla.id).map(({ text }) => text)).toEqual(['Slower.']);
    expect(store.commentsOfPupil(1)).toEqual([]);
  });
});

describe('a file that waits', () => {
  it('waits once, goes aside and comes back, and ends when it has found its place', () => {
    const store = furnishedStore();
    const arrival = { file: fileOf('who.mid', 'who'), pupilId: null, scoreId: 1, line: 'once through' };
    const { id } = store.addArrival(arrival);
    expect(store.addArrival({ ...arrival, pupilId: 1 }).id).toBe(id);
    expect(store.arrivals()).toMatchObject([{ fileName: 'who.mid', pupilId: 1, scoreId: 1 }]);
    store.setAside(id, true);
    expect(store.arrivals()).toEqual([]);
    store.setAside(id, false);
    const waiting = store.arrival(id)!;
    expect(new TextDecoder().decode(store.bytesOf(waiting))).toBe('who');
    store.addRecording({ pupilId: 1, scoreId: 1, file: waiting, line: waiting.line });
    store.endArrival(id);
    expect([store.arrivals().length, store.arrival(id), store.recordings().length]).toEqual([0, null, 2]);
  });
});

describe('a comment', () => {
  it('is open until it is settled, and again where that is undone', () => {
    const store = furnishedStore();
    const { id } = store.addComment({ ...onBarSeven('a', 'Slower.'), whole: true });
    expect(store.comment(id)).toMatchObject({ whole: true, settledAt: null });
    expect(store.setSettled(id, true).settledAt).toBe('2026-03-03T18:00:00.000Z');
    expect(store.setSettled(id, false).settledAt).toBeNull();
  });
});

describe('a glance', () => {
  it('takes the place of the one before', () => {
    const store = furnishedStore();
    expect(store.glance(1)).toBeNull();
    store.keepGlance(1, { madeFrom: 'a', body: '{}' });
    store.keepGlance(1, { madeFrom: 'b', body: '[]' });
    expect(store.glance(1)).toEqual({ madeFrom: 'b', body: '[]' });
  });
});
