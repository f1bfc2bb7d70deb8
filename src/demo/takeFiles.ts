/** A demo recording as files: the MIDI file a digital piano would send, the planned faults, the true alignment. */
import { writeMidi, type MidiEvent } from 'midi-file';
import type { TakePlan } from './plan.js';
import type { Take, TakeNote } from './take.js';

/** Ticks a second: 1000 to the crotchet at 120 crotchets a minute, so that every onset has 4 exact decimals. */
const TICKS_PER_SECOND = 2000;
/** Said in every demo recording. */
const NOTICE = 'Invented for the Barwise demo room';

/** An event at its tick. `rank` orders events of one moment: releases, pedal, key presses. */
interface Placed {
  readonly tick: number;
  readonly rank: number;
  readonly event: (deltaTime: number) => MidiEvent;
}

/** The recording as a Standard MIDI File of one track. */
export function midiBytes(take: Take, name: string): Uint8Array {
  const events = [...take.notes.filter((note) => note.status !== 'missed').flatMap(noteEvents), ...take.sustain.map(pedalEvent)]
    .sort((a, b) => a.tick - b.tick || a.rank - b.rank);
  const track: MidiEvent[] = [
    { deltaTime: 0, meta: true, type: 'trackName', text: name },
    { deltaTime: 0, meta: true, type: 'text', text: NOTICE },
    { deltaTime: 0, meta: true, type: 'setTempo', microsecondsPerBeat: 500_000 },
  ];
  let now = 0;
  for (const { tick, event } of events) {
    track.push(event(tick - now));
    now = tick;
  }
  track.push({ deltaTime: TICKS_PER_SECOND / 2, meta: true, type: 'endOfTrack' });
  return Uint8Array.from(writeMidi({ header: { format: 0, numTracks: 1, ticksPerBeat: TICKS_PER_SECOND / 2 }, tracks: [track] }));
}

/** What was planned, as JSON text. */
export function plannedJson(plan: TakePlan): string {
  const faults = plan.faults.map(({ aspect, kind, bars, pass, attempt, hand, what }) => ({ aspect, kind, bars, pass, attempt, hand, what }));
  const { name, piece, seed, player, instrument, purpose } = plan;
  return `${JSON.stringify({ format: 'barwise-planned/1', invented: true, name, piece, seed, player, instrument, purpose, faults }, null, 2)}\n`;
}

/** Every note with what became of it, tab-separated; missed notes have no onset. */
export function truthTsv(take: Take): string {
  const rows = take.notes.map((note) => [note.status, note.written?.id ?? '', ...truthPlace(note)].join('\t'));
  return `status\tnote\tpass\tonset\tpitch\tattempt\n${rows.join('\n')}\n`;
}

/** Pass, onset, pitch and attempt as the table has them. */
function truthPlace(note: TakeNote): readonly string[] {
  const onset = note.status === 'missed' ? '' : (tickOf(note.onsetS) / TICKS_PER_SECOND).toFixed(4);
  const [pass, attempt] = note.status === 'added' ? ['', ''] : [String(note.pass), String(note.attempt)];
  return [pass, onset, String(note.pitch), attempt];
}

/** The tick nearest to a time. */
function tickOf(timeS: number): number {
  return Math.round(timeS * TICKS_PER_SECOND);
}

/** Key down and key up, at least a tick apart. */
function noteEvents(note: TakeNote): readonly Placed[] {
  const channel = 0;
  const { pitch: noteNumber, velocity, releaseVelocity } = note;
  const down = tickOf(note.onsetS);
  return [
    { tick: down, rank: 2, event: (deltaTime) => ({ deltaTime, channel, type: 'noteOn', noteNumber, velocity }) },
    { tick: Math.max(down + 1, tickOf(note.releaseS)), rank: 0, event: (deltaTime) => ({ deltaTime, channel, type: 'noteOff', noteNumber, velocity: releaseVelocity }) },
  ];
}

/** One position of the right pedal: controller 64. */
function pedalEvent({ timeS, value }: { readonly timeS: number; readonly value: number }): Placed {
  return { tick: tickOf(timeS), rank: 1, event: (deltaTime) => ({ deltaTime, channel: 0, type: 'controller', controllerType: 64, value }) };
}
