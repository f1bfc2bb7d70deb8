import { describe, expect, it } from 'vitest';
import { handOf, layOutSlots, LEFT, ornamentSteps, RIGHT, writtenNote, type Slots } from '../../src/align/slots.js';
import type { Score } from '../../src/score/index.js';
import { repeatEnd, repeatStart } from '../score/build.js';
import { score } from './build.js';

/** Ids of each slot's notes. */
function members(read: Score, slots: Slots): string[] {
  return Array.from({ length: slots.count }, (_, s) =>
    [...slots.members.subarray(slots.first[s], slots.first[s + 1])].map((id) => read.notes[read.occurrences[id]!.noteIndex]!.id).sort().join(' '));
}

describe('slots', () => {
  it('hold the notes that are struck together, grace notes before their main note', () => {
    const read = score([{ right: 'C4 grace:D4 grace:E4 F4+A4/3', left: 'C3/2 F3/2' }]);
    const slots = layOutSlots(read);
    expect(members(read, slots)).toEqual(['l1-1 r1-1', 'r1-2', 'r1-3', 'r1-4 r1-4b', 'l1-2']);
    // crotchets 0, 1 (twice as a grace note, then the chord), 2
    expect([...slots.tick].map((tick) => tick / read.ticksPerQuarter)).toEqual([0, 1, 1, 1, 2]);
    expect([...slots.grace]).toEqual([0, 2, 1, 0, 0]);
    expect([...slots.hands]).toEqual([RIGHT | LEFT, RIGHT, RIGHT, RIGHT, LEFT]);
    expect([...slots.opensBar]).toEqual([1, 0, 0, 0, 0]);
  });

  it('count the slots of each hand before them', () => {
    const slots = layOutSlots(score([{ right: 'C4 D4 r E4', left: 'C3/2 F3/2' }]));
    // beats: both, right, left, right
    expect([...slots.rightBefore]).toEqual([0, 1, 2, 2, 3]);
    expect([...slots.leftBefore]).toEqual([0, 1, 1, 2, 2]);
  });

  it('stand once for each pass of a repeat', () => {
    const slots = layOutSlots(score([{ right: 'C4/2 D4/2', before: repeatStart, after: repeatEnd }, 'E4/4']));
    expect([...slots.visit]).toEqual([0, 0, 1, 1, 2]);
    expect([...slots.opensBar]).toEqual([1, 0, 1, 0, 1]);
    // C4 is MIDI 60: the first slot of either pass
    expect([...slots.byKey[60]!.slots]).toEqual([0, 2]);
  });

  it('know where each key is written and by which hand it is played', () => {
    const slots = layOutSlots(score([{ right: 'C4 E4 C4 G4', left: 'C4/2 C3/2' }]));
    expect([...slots.byKey[60]!.slots]).toEqual([0, 2]);
    expect([...slots.byKey[60]!.hands]).toEqual([RIGHT | LEFT, RIGHT]);
    expect(slots.byKey[61]!.slots).toHaveLength(0);
  });

  it('leave tied notes and cue notes without a place of their own', () => {
    const read = score(['C4/4_', '_C4/2 cue:E4 D4']);
    expect(members(read, layOutSlots(read))).toEqual(['r1-1', 'r2-3']);
  });
});

describe('ornament keys', () => {
  it('reach a whole tone about a trilled note over all that begins while it sounds', () => {
    const slots = layOutSlots(score([{ right: 'C4 E4tr/2 G4', left: 'C3 D3 E3 F3' }]));
    // the trill on E4 (64) lasts from beat 2 to beat 3, both included
    expect([...slots.ornamentKeys.keys()]).toEqual([1, 2]);
    expect([...slots.ornamentKeys.get(2)!].sort()).toEqual([62, 63, 64, 65, 66]);
  });

  it('take the keys of cue notes in all of their bar', () => {
    const slots = layOutSlots(score(['C4 D4 E4 F4', { right: 'G4/2 r/2', under: 'r/2 cue:B4/2' }, 'C5/4']));
    expect([...slots.ornamentKeys].map(([slot, keys]) => [slot, [...keys]])).toEqual([[4, [71]]]);
  });

  it('are none without a sign', () => {
    const read = score(['C4 E4tr/2 G4']);
    expect(read.occurrences.map((one) => ornamentSteps(writtenNote(read, one)).length)).toEqual([0, 5, 0]);
  });
});

describe('hands', () => {
  it('are the right one on the first stave, the left one on any other', () => {
    expect([1, 2, 3].map(handOf)).toEqual([RIGHT, LEFT, LEFT]);
  });
});
