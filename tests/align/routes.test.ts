/**
 * Hand-worked ways through a tune of eight bars: going back, jumping on, repeats, sections, stops, noodling. A new attempt of a bar
 * and pass begins each time the route jumps and comes to that bar again.
 */
import { describe, expect, it } from 'vitest';
import { barline, repeatEnd, repeatStart } from '../score/build.js';
import { keys, match, missed, route, said, score } from './build.js';
import { BAR_S, names, plays, tune } from './tune.js';

const both = tune();

describe('straight on', () => {
  it('follows both hands through all bars', () => {
    const matched = match(both, plays(1, 8, 1.3));
    expect(said(matched)).toBe(names(1, 8));
    expect([missed(matched), route(matched), matched.alignment.hands]).toEqual(['', '1-8', 'both']);
    // the first press at 1.3 s, the last one 31 crotchets of half a second later
    expect(matched.alignment.route[0]).toMatchObject({ startS: 1.3, endS: 16.8, attempt: 1, fromVisit: 0, toVisit: 7 });
  });

  it.each([['twice as slow', 1], ['half as slow again', 0.75], ['twice as fast', 0.25]])('at any tempo: %s', (_, stepS) => {
    const matched = match(both, plays(1, 8, 0, { stepS }));
    expect([said(matched), missed(matched), route(matched)]).toEqual([names(1, 8), '', '1-8']);
  });

  it('bears a stop in the middle of a bar without calling it a jump', () => {
    // after two beats of bar 3 three seconds pass, then beats three and four and the rest
    const matched = match(both, plays(1, 8, 0).map((key) => (key.onsetS >= 2.5 * BAR_S ? { ...key, onsetS: key.onsetS + 3 } : key)));
    expect([said(matched), missed(matched), route(matched)]).toEqual([names(1, 8), '', '1-8']);
  });

  it('takes a chord note that comes late after a stop for what it is', () => {
    // bar 2 begins after a stop with the left hand; the right hand's G4 follows 0.4 s later, then all goes on
    const late = plays(1, 4, 0).map((key) => {
      if (key.onsetS < BAR_S) return key;
      return { ...key, onsetS: key.onsetS + (key.onsetS === BAR_S && key.pitch > 60 ? 1.4 : 1) };
    });
    const matched = match(both, late);
    expect([said(matched), missed(matched), route(matched)]).toEqual([names(1, 4), '', '1-4']);
  });
});

describe('going back and jumping on', () => {
  it('begins a second attempt where the player goes back, and goes on as a first one', () => {
    // bars 1-4, a second of silence, again from bar 3 to the end
    const matched = match(both, plays(1, 4, 0), plays(3, 8, 4 * BAR_S + 1));
    expect(said(matched)).toBe(`${names(1, 4)} ${names(3, 4, { attempt: 2 })} ${names(5, 8)}`);
    expect([missed(matched), route(matched)]).toEqual(['', '1-4, 3-8@2']);
  });

  it('counts attempts of each bar for itself', () => {
    // 1-4, 3-5, 2-8: bar 3 and 4 come three times, bars 2 and 5 twice
    const matched = match(both, plays(1, 4, 0), plays(3, 5, 9), plays(2, 8, 16));
    const third = names(3, 4, { attempt: 3 });
    expect(said(matched)).toBe(`${names(1, 4)} ${names(3, 4, { attempt: 2 })} ${names(5, 5)} ${names(2, 2, { attempt: 2 })} ${third} ${names(5, 5, { attempt: 2 })} ${names(6, 8)}`);
    expect([missed(matched), route(matched)]).toEqual(['', '1-4, 3-5@2, 2-8@2']);
  });

  it('follows one bar played three times over', () => {
    const matched = match(both, plays(1, 3, 0), plays(3, 3, 7), plays(3, 3, 10), plays(3, 8, 13));
    expect(route(matched)).toBe('1-3, 3@2, 3@3, 3-8@4');
    expect(said(matched)).toBe([names(1, 3), ...[2, 3, 4].map((attempt) => names(3, 3, { attempt })), names(4, 8)].join(' '));
  });

  it('does not miss the rest of a bar that was broken off, and counts a new attempt of it', () => {
    // bars 1-3 and two beats of bar 4, then again from bar 3
    const matched = match(both, plays(1, 4, 0).filter((key) => key.onsetS < 3.5 * BAR_S), plays(3, 8, 9));
    expect(said(matched)).toBe(`${names(1, 3)} l4-1 r4-1 l4-2 r4-2 ${names(3, 4, { attempt: 2 })} ${names(5, 8)}`);
    expect([missed(matched), route(matched)]).toEqual(['', '1-4, 3-8@2']);
  });

  it('jumps on over bars, which are left out and not missed', () => {
    const matched = match(both, plays(1, 3, 0), plays(6, 8, 3 * BAR_S + 1.2));
    expect([said(matched), missed(matched), route(matched)]).toEqual([`${names(1, 3)} ${names(6, 8)}`, '', '1-3, 6-8']);
  });

  it('sees one bar left out in time as a jump', () => {
    const matched = match(both, plays(1, 4, 0), plays(6, 8, 4 * BAR_S));
    expect([said(matched), missed(matched), route(matched)]).toEqual([`${names(1, 4)} ${names(6, 8)}`, '', '1-4, 6-8']);
  });

  it('misses the notes of a bar that is silent for as long as it lasts', () => {
    const matched = match(both, plays(1, 4, 0), plays(6, 8, 5 * BAR_S));
    expect([said(matched), route(matched)]).toEqual([`${names(1, 4)} ${names(6, 8)}`, '1-8']);
    expect(missed(matched).split(' ').sort()).toEqual(names(5, 5).split(' ').sort());
  });

  it('goes back and then on', () => {
    const matched = match(both, plays(1, 5, 0), plays(2, 3, 11), plays(6, 8, 16.5));
    expect(route(matched)).toBe('1-5, 2-3@2, 6-8');
    expect(missed(matched)).toBe('');
  });
});

describe('parts of the piece', () => {
  it('follows a section alone', () => {
    const matched = match(both, plays(4, 6, 0.8));
    expect([said(matched), missed(matched), route(matched)]).toEqual([names(4, 6), '', '4-6']);
  });

  it('follows a section that begins and ends inside bars, and misses nothing outside it', () => {
    // from beat 4 of bar 3 to beat 1 of bar 6
    const matched = match(both, plays(3, 6, 0).filter((key) => key.onsetS >= 1.5 && key.onsetS <= 3 * BAR_S));
    expect(said(matched)).toBe(`l3-4 r3-4 ${names(4, 5)} l6-1 r6-1`);
    expect([missed(matched), route(matched)]).toEqual(['', '3-6']);
  });

  it('does not miss what follows where the player ends in mid-bar', () => {
    const matched = match(both, plays(1, 5, 0).filter((key) => key.onsetS < 4.5 * BAR_S - 0.6));
    expect(missed(matched)).toBe('');
    expect(route(matched)).toBe('1-5');
  });

  it('leaves noodling before the start outside the score', () => {
    const matched = match(both, keys(0, 0.25, 'C#5 D#5 F#5 C#5 A#4'), plays(1, 8, 4));
    expect(said(matched)).toBe(`+ + + + + ${names(1, 8)}`);
    expect([missed(matched), route(matched)]).toEqual(['', '1-8']);
  });

  it('leaves what is played after the end outside the score', () => {
    const matched = match(both, plays(1, 8, 0), keys(20, 0.25, 'C#5 D#5 F#5 C#5 A#4'));
    expect(said(matched)).toBe(`${names(1, 8)} + + + + +`);
  });

  it('takes a false start for an attempt of its own', () => {
    // five beats, then again from the beginning
    const matched = match(both, plays(1, 2, 0).filter((key) => key.onsetS <= BAR_S), plays(1, 8, 4));
    expect(route(matched)).toBe('1-2, 1-8@2');
    expect(said(matched)).toBe(`${names(1, 1)} l2-1 r2-1 ${names(1, 2, { attempt: 2 })} ${names(3, 8)}`);
    expect(missed(matched)).toBe('');
  });
});

describe('repeats', () => {
  const bar1 = 'C4 D4 E4 F4';
  const bar2 = 'G4 E4 A4 F4';
  const bar3 = 'B4 G4 C5 A4';
  const bar4 = 'D5 B4 E5 C5';
  const once = [bar1, bar2, bar3, bar4].join(' ');

  describe('of bars 1-2, then 3-4', () => {
    const repeated = score([{ right: bar1, before: repeatStart }, { right: bar2, after: repeatEnd }, bar3, bar4]);

    it('counts passes, not attempts, where the repeat is taken', () => {
      const matched = match(repeated, keys(0, 0.5, `${bar1} ${bar2} ${once}`));
      expect(said(matched)).toBe([names(1, 2, { hand: 'right' }), names(1, 2, { hand: 'right', pass: 2 }), names(3, 4, { hand: 'right' })].join(' '));
      expect([missed(matched), matched.alignment.route.length]).toEqual(['', 1]);
    });

    it('shows the repeat left out in the route', () => {
      const matched = match(repeated, keys(0, 0.5, once));
      expect([said(matched), missed(matched), route(matched)]).toEqual([names(1, 4, { hand: 'right' }), '', '1-2, 3-4']);
    });

    it('counts attempts within the second pass', () => {
      // 1-2, 1-2 again as written, then back to bar 2 and on
      const matched = match(repeated, keys(0, 0.5, `${bar1} ${bar2} ${bar1} ${bar2}`), keys(10, 0.5, [bar2, bar3, bar4].join(' ')));
      const [first] = matched.alignment.route;
      expect(first).toMatchObject({ fromVisit: 0, toVisit: 3 });
      expect(missed(matched)).toBe('');
      // of equal explanations the fewest jumps, then the earliest pass; either pass of bar 2 needs no further jump, but only the second leads on to bar 3
      expect(said(matched).split(' ').slice(16)).toEqual([names(2, 2, { hand: 'right', pass: 2, attempt: 2 }), names(3, 4, { hand: 'right' })].join(' ').split(' '));
    });
  });

  describe('with two endings', () => {
    const ending = (number: 1 | 2, type: 'start' | 'stop' | 'discontinue', more = ''): string => barline(`<ending number="${number}" type="${type}"/>${more}`, type === 'start' ? 'left' : 'right');
    const endings = score([
      { right: bar1, before: repeatStart },
      { right: bar2, before: ending(1, 'start'), after: ending(1, 'stop', '<repeat direction="backward"/>') },
      { right: bar3, before: ending(2, 'start'), after: ending(2, 'discontinue') },
      bar4,
    ]);

    it('takes each ending in its pass', () => {
      const matched = match(endings, keys(0, 0.5, [bar1, bar2, bar1, bar3, bar4].join(' ')));
      const hand = 'right';
      expect(said(matched)).toBe([names(1, 2, { hand }), names(1, 1, { hand, pass: 2 }), names(3, 4, { hand })].join(' '));
      expect([missed(matched), matched.alignment.route.length]).toEqual(['', 1]);
    });

    it('goes straight into the second ending where the repeat is left out', () => {
      const matched = match(endings, keys(0, 0.5, [bar1, bar3, bar4].join(' ')));
      expect(missed(matched)).toBe('');
      // bar 1 is either pass; the earliest counts
      expect(said(matched)).toBe([names(1, 1, { hand: 'right' }), names(3, 4, { hand: 'right' })].join(' '));
      expect(route(matched)).toBe('1, 3-4');
    });
  });
});

describe('breaking off at a wrong note', () => {
  it('misses the note that was struck wrong, and nothing after it', () => {
    // bar 4 up to its third beat, where D#5 sounds for E5 and the left hand stays away; then again from bar 3
    const broken = plays(1, 4, 0).filter((key) => key.onsetS < 3.5 * BAR_S);
    const matched = match(both, broken, keys(3.5 * BAR_S, 1, 'D#5'), plays(3, 8, 9));
    expect(said(matched)).toBe(`${names(1, 3)} l4-1 r4-1 l4-2 r4-2 !r4-3 ${names(3, 4, { attempt: 2 })} ${names(5, 8)}`);
    expect(missed(matched)).toBe('r4-3');
  });
});
