import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import tonejsMidi from '@tonejs/midi';
import { describe, expect, it } from 'vitest';
import { pieces, takes } from '../../src/demo/index.js';
import { readRecording } from '../../src/recording/index.js';
import { readScore, type Score } from '../../src/score/index.js';

const sample = (path: string): Uint8Array => readFileSync(fileURLToPath(new URL(`../../sample-recordings/${path}`, import.meta.url)));

interface Row {
  readonly status: string;
  readonly note: string;
  readonly pass: string;
  readonly onset: string;
  readonly pitch: number;
  readonly attempt: string;
}

function truthOf(path: string): readonly Row[] {
  const [head, ...lines] = Buffer.from(sample(path)).toString('utf8').trimEnd().split('\n');
  expect(head).toBe('status\tnote\tpass\tonset\tpitch\tattempt');
  return lines.map((line) => {
    const [status = '', note = '', pass = '', onset = '', pitch = '', attempt = ''] = line.split('\t');
    return { status, note, pass, onset, pitch: Number(pitch), attempt };
  });
}

const scores = new Map<string, Score>(pieces.map((piece) => [piece.slug, readScore(sample(`${piece.slug}/score.musicxml`), { fileName: 'score.musicxml' })]));

describe.each([...scores])('the score of %s', (slug, score) => {
  it('is read without a warning, with two staves and its own note ids', () => {
    expect(score.warnings).toEqual([]);
    expect(score.staves).toBe(2);
    expect(score.notes.every((note) => /^[lr]\d+-\d+[a-c]?$/.test(note.id))).toBe(true);
    expect(new Set(score.notes.map((note) => note.id)).size).toBe(score.notes.length);
  });

  it('puts the right hand on the upper and the left hand on the lower stave', () => {
    expect(score.notes.every((note) => note.staff === (note.id.startsWith('r') ? 1 : 2))).toBe(true);
  });

  it('gives the crotchets a minute of its metronome mark', () => {
    // dotted crotchet 52 = 52 × 1.5 = 78 crotchets, dotted crotchet 60 = 90; crotchets as they stand
    const marked: Readonly<Record<string, number>> = { 'rowing-home': 78, 'quayside-march': 104, 'evening-over-skerrowby': 66, 'gull-chase': 90 };
    expect(score.directions.filter((direction) => direction.kind === 'tempo').map((direction) => direction.value)).toContain(marked[slug]);
  });
});

describe('ties in the score files', () => {
  it.each([['evening-over-skerrowby', 18], ['gull-chase', 3], ['rowing-home', 0]] as const)('%s: %d, each ending on the same pitch', (slug, ties) => {
    const { notes, occurrences } = scores.get(slug)!;
    expect(notes.filter((note) => note.tieStart)).toHaveLength(ties);
    const chains = [...new Map(occurrences.filter(({ tied }) => tied.length > 1).map((each) => [each.noteIndex, each.tied])).values()];
    expect(chains.map((chain) => new Set(chain.map((index) => notes[index]!.pitch.midi)).size)).toEqual(Array.from({ length: ties }, () => 1));
  });
});

describe.each(takes.map((plan) => [plan.name, plan] as const))('%s', (name, plan) => {
  const rows = truthOf(`${plan.piece}/${name}.truth.tsv`);
  const played = rows.filter((row) => row.status !== 'missed');
  const score = scores.get(plan.piece)!;
  const writtenPitch = new Map(score.notes.map((note) => [note.id, note.pitch.midi]));

  it('holds just the key presses of the recording, as an independent library reads it', () => {
    const midi = new tonejsMidi.Midi(sample(`${plan.piece}/${name}.mid`));
    const inFile = midi.tracks.flatMap((track) => track.notes).map((note) => `${note.time.toFixed(4)} ${String(note.midi)}`).sort();
    expect(played.map((row) => `${row.onset} ${String(row.pitch)}`).sort()).toEqual(inFile);
  });

  it('names written notes by their ids in the score', () => {
    expect(rows.filter((row) => (row.status === 'added') !== (row.note === ''))).toEqual([]);
    expect(rows.filter((row) => row.note !== '' && !writtenPitch.has(row.note))).toEqual([]);
  });

  it('plays every matched note at its written pitch, octave slips apart', () => {
    const slips = plan.faults.some((fault) => fault.kind === 'octaveSlip');
    const off = rows.filter((row) => row.status === 'matched').map((row) => row.pitch - (writtenPitch.get(row.note) ?? 0)).filter((semitones) => semitones !== 0);
    expect(new Set(off)).toEqual(new Set(slips ? [-12] : []));
  });

  it('has each note, pass and attempt once', () => {
    const keys = rows.filter((row) => row.note !== '' && row.status !== 'ornament').map((row) => `${row.note} ${row.pass} ${row.attempt}`);
    expect(new Set(keys).size).toBe(keys.length);
  });

  it('is read as the instrument that was planned', () => {
    const { limits } = readRecording(sample(`${plan.piece}/${name}.mid`), { fileName: `${name}.mid` });
    const kinds = limits.map((limit) => limit.kind);
    expect(kinds.includes('no-touch')).toBe(!plan.instrument.touch);
    expect(kinds.includes('no-pedal')).toBe(plan.instrument.pedal === 'none');
    expect(kinds.includes('switch-pedal')).toBe(plan.instrument.pedal === 'switch');
  });

  it('plans its faults in bars that the score has', () => {
    const bars = new Set(score.bars.map((bar) => bar.number));
    expect(plan.faults.flatMap((fault) => fault.bars).filter((bar) => !bars.has(bar))).toEqual([]);
    const named = plan.faults.flatMap((fault) => ('notes' in fault ? fault.notes : []));
    expect(named.filter((id) => !writtenPitch.has(id))).toEqual([]);
  });

  it('misses just the notes that were planned', () => {
    const planned = plan.faults.flatMap((fault) => (fault.kind === 'wrongNote' || fault.kind === 'misreadAccidental' || fault.kind === 'missedNote' ? fault.notes : []));
    expect(new Set(rows.filter((row) => row.status === 'missed').map((row) => row.note))).toEqual(new Set(planned));
  });
});
