import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { InputError } from '../../src/base/index.js';
import { openTestRoom, plainPipeline, sample, type TestRoom } from './room.js';

const PAGE = '/pieces/piece';

/** A room with one piece. */
async function roomWith(score: { readonly name: string; readonly bytes: Uint8Array }, title = 'Piece', pipeline = plainPipeline()): Promise<TestRoom> {
  const room = await openTestRoom(pipeline);
  room.store.addPiece({ title, score });
  return room;
}

/** Bars of a piano part in common time. */
const xmlOf = (bars: readonly string[], head = '') => ({
  name: 'made.musicxml',
  bytes: Buffer.from(
    `<?xml version="1.0"?><score-partwise version="4.0">${head}<part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list><part id="P1">` +
      bars.map((bar, i) => `<measure number="${i + 1}">${i === 0 ? '<attributes><divisions>1</divisions><key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time><clef><sign>G</sign><line>2</line></clef></attributes>' : ''}${bar}</measure>`).join('') +
      '</part></score-partwise>',
  ),
});
const REST = '<note><rest measure="yes"/><duration>4</duration></note>';
const note = (step: string, octave = 4): string => `<note><pitch><step>${step}</step><octave>${octave}</octave></pitch><duration>4</duration><type>whole</type></note>`;

describe('the page of a piece', () => {
  it('shows form, keys, harmony, plan and pitfalls on the score, and the notes beside it', async () => {
    const room = await roomWith(sample('rowing-home/score.musicxml'));
    const { status, body } = await room.call(PAGE);
    expect(status).toBe(200);
    // composed so: A minor with a middle in C major, marked pedal throughout
    expect(body).toMatch(/class="key minor"[^>]*>.*A minor/);
    expect(body).toMatch(/class="key major"[^>]*>.*C major/);
    expect(body).toMatch(/class="bracket-name"[^>]*>A<\/text>/);
    expect(body).toContain('class="plan-level printed"');
    expect(body).toContain('class="mark mark-look"');
    for (const heading of ['Before teaching it', 'What will trip a hand', 'Listen for', 'The pedal plan']) expect(body).toContain(`>${heading}</h2>`);
  });

  it('ties at most ten sentences to their bars, and every link of the page leads somewhere', async () => {
    const room = await roomWith(sample('evening-over-skerrowby/score.musicxml'));
    const { body } = await room.call(PAGE);
    const before = /id="before".*?<\/ul>/s.exec(body)?.[0] ?? '';
    const sentences = before.match(/<li data-sentence/g) ?? [];
    expect(sentences.length).toBeGreaterThan(4);
    expect(sentences.length).toBeLessThanOrEqual(10);
    expect(before).toMatch(/<a href="#bar-\d+">/);
    const ids = new Set([...body.matchAll(/ id="([^"]+)"/g)].map((match) => match[1]));
    const targets = [...body.matchAll(/href="#([^"]+)"/g)].map((match) => match[1]).filter((target) => !target!.startsWith('glyph-'));
    expect(targets.length).toBeGreaterThan(60);
    expect(targets.filter((target) => !ids.has(target))).toEqual([]);
  });

  it('tells in a bar’s drawer all that is known of it', async () => {
    const room = await roomWith(sample('evening-over-skerrowby/score.musicxml'));
    const { body } = await room.call(PAGE);
    const drawer = (bar: number): string => new RegExp(`<section class="drawer" id="bar-${bar}".*?</section>`, 's').exec(body)?.[0].replace(/\s+/g, ' ') ?? '';
    // composed so: the flattened supertonic in bar 17, the six-four and the dominant in bar 18, in F minor
    expect(drawer(17)).toContain('N6, G flat major over B flat');
    expect(drawer(17)).toContain('<dt>Key</dt><dd>F minor</dd>');
    expect(drawer(18)).toMatch(/on 1: V 6–4, the six-four before the dominant/);
    expect(drawer(18)).toMatch(/on 3: V7, C seventh/);
    expect(drawer(18)).toContain('change the pedal (new harmony: C seventh)');
    // marked in the score
    expect(drawer(10)).toContain('let it ring');
    expect(drawer(17)).toMatch(/<dt>Form<\/dt><dd>section [A-Z]/);
  });

  it('has the comments on its recordings in the drawer of their bar, as text', async () => {
    const room = await roomWith(sample('rowing-home/score.musicxml'));
    const pupil = room.store.addPupil('Mei <b>Castellow</b>');
    room.store.addRecording({ pupilId: pupil.id, scoreId: room.store.scoreOfPiece(1).id, file: sample('rowing-home/mei-castellow-2025-10-07.mid'), line: 'once through', receivedAt: '2025-10-07T20:15:00' });
    room.store.addComment({ recordingId: 1, key: crypto.randomUUID(), bars: ['7', '7'], barIndexes: [7, 7], text: 'Ring the <i>D</i>.' });
    const { body } = await room.call(PAGE);
    const drawer = /<section class="drawer" id="bar-7".*?<\/section>/s.exec(body)?.[0] ?? '';
    expect(drawer).toContain('Ring the &lt;i&gt;D&lt;/i&gt;.');
    expect(drawer).toContain('Mei &lt;b&gt;Castellow&lt;/b&gt;');
    expect(drawer).toMatch(/href="\/pupils\/[^"]+\/recordings\/1#bar-7"/);
  });

  it('says the same in tables', async () => {
    const room = await roomWith(sample('rowing-home/score.musicxml'));
    const { body } = await room.call(PAGE);
    for (const caption of ['Sections', 'Keys', 'Harmony']) expect(body).toContain(`<caption>${caption}</caption>`);
    expect(body).toContain('<caption class="unseen">Pedal plan</caption>');
    expect(body).toMatch(/<th scope="row"><a href="#bar-9">9<\/a><\/th><td>C major<\/td>/);
  });

  it('is engraved in the widths that its page has, by address, then cookie, then the usual one', async () => {
    const room = await roomWith(xmlOf([note('C')]));
    const width = async (path: string, cookie = ''): Promise<string | undefined> => /id="score"[^>]*data-width="(\d+)"/.exec((await room.call(path, { headers: { cookie } })).body)?.[1];
    expect(await width(PAGE)).toBe('656');
    expect(await width(PAGE, 'barwise-width=358; barwise-whole-width=968')).toBe('968');
    expect(await width(`${PAGE}?w=940`, 'barwise-whole-width=358')).toBe('940');
    expect(await width(`${PAGE}?w=12`)).toBe('656');
  });
});

describe('where something is missing', () => {
  it('stands with the reason where the score cannot be read, or is gone', async () => {
    const broken = await roomWith({ name: 'broken.musicxml', bytes: Buffer.from('<score-partwise><part') });
    const answer = await broken.call(PAGE);
    expect(answer.status).toBe(200);
    expect(answer.body).toContain('broken.musicxml');
    expect(answer.body).toContain('Put the score in again from the desk.');
    expect(answer.body).not.toContain('Before teaching it');
    const gone = await roomWith(xmlOf([note('C')]));
    rmSync(join(gone.store.folder, 'files'), { recursive: true });
    const { status, body } = await gone.call(PAGE);
    expect(status).toBe(200);
    expect(body).toContain('The original file is no longer in the data folder.');
    expect(body).toContain('Nobody has sent a recording');
  });

  it('shows the engraving alone where the score cannot be analysed, and says so', async () => {
    const failing = { ...plainPipeline(), analysis: () => Promise.reject(new InputError('unsupported', 'Working on this file took too long and was stopped.')) };
    const room = await roomWith(xmlOf([note('C'), note('D')]), 'Piece', failing);
    const { status, body } = await room.call(PAGE);
    expect(status).toBe(200);
    expect(body).toContain('The score could not be analysed, so only the engraving is here.');
    expect(body).toContain('took too long');
    expect(body).toContain('id="bar-2"');
    expect(body).not.toContain('Harmony in');
  });

  it('does not swallow a fault of its own', async () => {
    const failing = { ...plainPipeline(), analysis: () => Promise.reject(new RangeError('our mistake')) };
    const room = await roomWith(xmlOf([note('C')]), 'Piece', failing);
    expect((await room.call(PAGE)).status).toBe(500);
  });

  it('says what cannot be told of rests alone', async () => {
    const room = await roomWith(xmlOf([REST, REST]));
    const { status, body } = await room.call(PAGE);
    expect(status).toBe(200);
    expect(body).toContain('The score holds only rests');
    expect(body).not.toContain('plan-entry');
    expect(body).not.toContain('class="key ');
  });

  it('keeps the analysis over a plain grid of bars', async () => {
    const room = await roomWith(sample('quayside-march/score.musicxml'));
    const { body } = await room.call(PAGE);
    expect(body).toContain('no engraver in this test');
    expect(body).toMatch(/class="harmony-name"/);
    expect(body).toMatch(/class="bracket-name"/);
  });
});

describe('names from a hostile file', () => {
  const NASTY = '"&gt;&lt;img src=x onerror=alert(1)&gt;&lt;script&gt;alert(2)&lt;/script&gt;';

  it('stay text: title, bar numbers, words, part names', async () => {
    const score = xmlOf([note('C'), note('G'), note('C')], `<work><work-title>${NASTY}</work-title></work>`);
    const text = score.bytes.toString().replace('number="2"', `number="${NASTY.replaceAll('"', '&quot;')}"`).replace('<note>', `<direction><direction-type><words>${NASTY}</words></direction-type></direction><note>`).replace('>Piano<', `>${NASTY}<`);
    const room = await roomWith({ name: 'x.musicxml', bytes: Buffer.from(text) }, '"><img src=x onerror=alert(1)>');
    const slug = room.store.pieces()[0]!.slug;
    const { status, body } = await room.call(`/pieces/${slug}`);
    expect(status).toBe(200);
    expect(body).not.toMatch(/<img|<script>alert/);
    expect(body).toContain('&lt;img src=x');
  });
});
