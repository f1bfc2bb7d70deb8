import type { Harmony } from '../../../src/harmony/index.js';
import type { EngravedNote, EngravedSystem } from '../../../src/engrave/index.js';
import type { Bar, ScoreNote } from '../../../src/score/index.js';

/** A system of bars given by their edges, px, with heads. */
export function systemOf(edges: readonly (readonly [left: number, right: number])[], notes: readonly EngravedNote[], firstBar = 0): EngravedSystem {
  return {
    index: 0, widthPx: 300, heightPx: 100, svg: '<svg class="system"></svg>', staves: [{ staff: 1, top: 30, bottom: 60 }],
    bars: edges.map(([left, right], i) => ({ barIndex: firstBar + i, left, right })), notes,
  };
}

/** A score of bars of four ticks, a crotchet each, and notes by id and onset. */
export function scoreOf(bars: number, onsets: Readonly<Record<string, number>>): { bars: readonly Bar[]; notes: readonly ScoreNote[]; ticksPerQuarter: number } {
  return {
    ticksPerQuarter: 1,
    bars: Array.from({ length: bars }, (_, index): Bar => ({
      index, number: String(index + 1), implicit: false, startTick: 4 * index, lengthTicks: 4, nominalTicks: 4,
      time: { beats: 4, beatType: 4, symbol: null }, key: { fifths: 0, mode: null }, barlines: [], endings: [],
    })),
    notes: Object.entries(onsets).map(([id, onsetTick], index): ScoreNote => ({
      index, id, barIndex: Math.floor(onsetTick / 4), onsetTick, lengthTicks: 1, pitch: { step: 'C', alter: 0, octave: 4, midi: 60 }, staff: 1, voice: '1',
      inChord: false, grace: null, cue: false, tieStart: false, tieStop: false, letRing: false, slurs: [], articulations: [], ornaments: [], arpeggio: null,
      fermata: false, type: 'quarter', dots: 0, tuplet: null, fingering: [], velocity: null, hidden: false,
    })),
  };
}

/** A harmony over some ticks. */
export function harmonyOf(fromTick: number, toTick: number, degree = 'I', name = 'C'): Harmony {
  return {
    fromTick, toTick, barIndex: Math.floor(fromTick / 4), offset: fromTick % 4, root: 0, rootName: 'C', quality: 'major', bass: 0, bassName: 'C', inversion: 0, degree,
    function: 'tonic', borrowed: false, members: { sounding: ['root', 'third', 'fifth'], missing: [], late: [] }, nonChordNotes: [], confidence: 1, name,
  };
}
