import { describe, expect, it } from 'vitest';
import { openStore } from '../../src/store/index.js';
import { furnishedStore, ownFolder } from './folder.js';

describe('the year of birth', () => {
  it('is there after a restart, with the pupil and with every recording, and can be forgotten', () => {
    const folder = ownFolder();
    const store = furnishedStore(folder);
    const [nell] = store.pupils();
    expect(nell!.born).toBeNull();
    expect(store.setBorn(nell!.id, 2012).born).toBe(2012);
    const other = openStore(folder);
    expect(other.pupil(nell!.slug)?.born).toBe(2012);
    expect(other.recordings({ pupilId: nell!.id }).map(({ pupil }) => pupil.born)).toEqual(other.recordings({ pupilId: nell!.id }).map(() => 2012));
    other.setBorn(nell!.id, null);
    expect(other.pupil(nell!.slug)?.born).toBeNull();
    other.close();
  });

  it.each([[1800], [9999], [2001.5], [Number.NaN]])('%s is refused', (year) => {
    const store = furnishedStore();
    expect(() => store.setBorn(1, year)).toThrow(expect.objectContaining({ name: 'InputError', code: 'bad-value' }));
    expect(store.pupils()[0]?.born).toBeNull();
  });
});
