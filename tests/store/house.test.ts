import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openDatabase } from '../../src/store/driver.js';
import { openStore } from '../../src/store/index.js';
import { fileOf, furnishedStore, handClock, ownFolder } from './folder.js';

const PLAN = [{ barIndex: 0, offset: 0, kind: 'pedal' }, { barIndex: 2, offset: 1.5, kind: 'ring' }] as const;

describe('the pedal plan of a piece', () => {
  it('is the program’s until it is changed, and every change can be taken back and come again', () => {
    const store = furnishedStore();
    const { id } = store.pieces()[0]!;
    expect(store.planOf(id)).toBeNull();
    const first = store.setPlan(id, PLAN);
    const second = store.setPlan(id, [PLAN[0]]);
    expect(store.planOf(id)).toEqual([PLAN[0]]);
    store.removePlan(second.id);
    expect(store.planOf(id)).toEqual(PLAN);
    store.removePlan(first.id);
    expect(store.planOf(id)).toBeNull();
    store.restorePlan(second.id);
    expect(store.planOf(id)).toEqual([PLAN[0]]);
    store.setPlan(id, null);
    expect(store.planOf(id)).toBeNull();
    expect(store.planVersions(id).map(({ plan, removedAt }) => [plan?.length ?? null, removedAt !== null])).toEqual([[null, false], [1, false], [2, true]]);
  });

  it('is another for another piece, and outlives the program', () => {
    const folder = ownFolder();
    const store = furnishedStore(folder);
    const other = store.addPiece({ title: 'Low Water', score: fileOf('low.musicxml', '<score-partwise version="4.0"/>') });
    store.setPlan(store.pieces()[0]!.id, PLAN);
    expect(store.planOf(other.id)).toBeNull();
    const again = openStore(folder);
    expect(again.planOf(1)).toEqual(PLAN);
    again.close();
  });

  it('never reaches a page where somebody has spoilt it', () => {
    const folder = ownFolder();
    const store = furnishedStore(folder);
    store.setPlan(1, PLAN);
    const database = openDatabase(join(folder, 'barwise.sqlite'));
    database.run('UPDATE pedal_plans SET body = ?', ['[{"barIndex":0,"offset":0,"kind":"half"}]']);
    database.close();
    expect(() => store.planOf(1)).toThrow(expect.objectContaining({ name: 'InputError', code: 'bad-value' }));
  });
});

describe('settings', () => {
  it('are kept by name and can be taken back', () => {
    const store = furnishedStore();
    expect(store.setting('paper')).toBeNull();
    store.setSetting('paper', 'letter');
    store.setSetting('paper', 'a4');
    expect(store.setting('paper')).toBe('a4');
    store.setSetting('paper', null);
    expect(store.setting('paper')).toBeNull();
  });
});

describe('sessions', () => {
  it('hold until their moment, and end by themselves, one by one, or all at once', () => {
    const clock = handClock('2026-03-03T18:00:00.000Z');
    const store = furnishedStore(ownFolder(), clock.now);
    store.addSession('a', '2026-03-03T19:00:00.000Z');
    store.addSession('b', '2026-03-04T19:00:00.000Z');
    expect([store.hasSession('a'), store.hasSession('b'), store.hasSession('c')]).toEqual([true, true, false]);
    clock.set('2026-03-03T19:00:00.000Z');
    expect([store.hasSession('a'), store.hasSession('b')]).toEqual([false, true]);
    store.addSession('c', '2026-03-04T19:00:00.000Z');
    store.endSessions('b');
    expect([store.hasSession('b'), store.hasSession('c')]).toEqual([false, true]);
    store.endSessions();
    expect(store.hasSession('c')).toBe(false);
  });
});

describe('consent', () => {
  it('is asked of the teacher’s own pupils, once each, and can be taken back', () => {
    const clock = handClock('2026-03-03T18:00:00.000Z');
    const store = furnishedStore(ownFolder(), clock.now);
    store.addPupil('Mei Castellow', { invented: true });
    const other = store.addPupil('Tam Weir');
    expect(store.pupilsToAsk().map(({ name }) => name)).toEqual(['Nell Farrow', 'Tam Weir']);
    store.setConsent(1, { adult: false });
    store.setConsent(other.id, { adult: true });
    expect(store.pupilsToAsk()).toEqual([]);
    expect(store.consentOf(1)).toEqual({ adult: false, givenAt: '2026-03-03T18:00:00.000Z' });
    expect(store.consentOf(other.id)?.adult).toBe(true);
    store.setConsent(1, null);
    expect(store.consentOf(1)).toBeNull();
    store.removePupil(1);
    expect(store.pupilsToAsk()).toEqual([]);
  });
});

describe('the demo room', () => {
  it('goes and comes back as one, and takes nothing of the teacher’s own with it', () => {
    const store = furnishedStore();
    expect(store.demoState()).toBe('none');
    const mei = store.addPupil('Mei Castellow', { invented: true });
    const played = store.addPiece({ title: 'Rowing Home', invented: true, score: fileOf('rowing.musicxml', '<a/>') });
    store.addPiece({ title: 'Gull Chase', invented: true, score: fileOf('gull.musicxml', '<b/>') });
    const scoreId = store.scoreOfPiece(played.id).id;
    store.addRecording({ pupilId: mei.id, scoreId, file: fileOf('mei.mid', 'M'), line: '' });
    store.addRecording({ pupilId: 1, scoreId, file: fileOf('nell.mid', 'N'), line: '' });
    expect(store.demoState()).toBe('here');
    store.removeDemo();
    expect(store.demoState()).toBe('removed');
    expect(store.pupils().map(({ name }) => name)).toEqual(['Nell Farrow']);
    // the piece that Nell plays stays
    expect(store.pieces().map(({ title }) => title)).toEqual(['Harbour Lights', 'Rowing Home']);
    expect(store.recordings().map(({ fileName }) => fileName).sort()).toEqual(['monday.mid', 'nell.mid']);
    store.restoreDemo();
    expect(store.demoState()).toBe('here');
    expect(store.pieces()).toHaveLength(3);
    expect(store.recordings()).toHaveLength(3);
  });

  it('gives a piece back where its score is put in again', () => {
    const store = furnishedStore();
    store.addPupil('Mei Castellow', { invented: true });
    const score = fileOf('gull.musicxml', '<b/>');
    const { id } = store.addPiece({ title: 'Gull Chase', invented: true, score });
    store.removeDemo();
    expect(store.addPiece({ title: 'Gull Chase', score }).id).toBe(id);
    expect(store.pieces().map(({ title }) => title)).toContain('Gull Chase');
  });
});
