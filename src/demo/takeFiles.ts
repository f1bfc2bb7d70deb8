/** A demo recording as files: the MIDI file a digital piano would send, the planned faults, the true alignment. */
import { recordingBytes, TICKS_PER_SECOND, tickOf } from '../recording/index.js';
import type { TakePlan } from './plan.js';
import type { Take, TakeNote } from './take.js';

/** Said in every demo recording. */
const NOTICE = 'Invented for the Barwise demo room';

/** The recording as a Standard MIDI File of one track. */
export function midiBytes(take: Take, name: string): Uint8Array {
  return recordingBytes({ notes: take.notes.filter((note) => note.status !== 'missed'), sustain: take.sustain }, { name, notice: NOTICE });
}

/** The head of a sound file (RIFF, WAVE) that holds nothing but the notice: what a telephone sends, and no MIDI file. */
export function soundFileBytes(): Uint8Array {
  const notice = NOTICE.padEnd(NOTICE.length + (NOTICE.length % 2), ' ');
  const bytes = new Uint8Array(20 + notice.length);
  const view = new DataView(bytes.buffer);
  bytes.set(new TextEncoder().encode(`RIFF    WAVEnote    ${notice}`));
  view.setUint32(4, 12 + notice.length, true);
  view.setUint32(16, notice.length, true);
  return bytes;
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
