/**
 * What can be heard of a recording: as played and as it could be, ready for sounding, in words, and as MIDI files. Each
 * version is made when it is asked for.
 */
import { Router, type Request } from 'express';
import { groupBy, sentenceCase, spokenIn } from '../base/index.js';
import { judgeAll } from '../judge/index.js';
import { recordingBytes, type Recording } from '../recording/index.js';
import { barNames } from '../score/index.js';
import { isVersionName, levelsMatched, makeVersion, playbackOf, shownBars, shownMoments, VERSION_NAMES, versionInWords, type SoundInput, type Version, type VersionName } from '../sound/index.js';
import { asDecisions, type FiledRecording } from '../store/index.js';
import { barAnchors } from './anchors.js';
import { holding } from './decisionsHere.js';
import { readingOf, recordingAt } from './recordingAt.js';
import { reviewHead } from './reviewPage.js';
import { recordingAddress, type Room } from './shared.js';
import { sendPage } from './views.js';

/** Sound of one recording. */
export function soundRoutes(room: Room): Router {
  const router = Router();
  router.get('/pupils/:slug/recordings/:id/sound', async (request, response, next) => {
    const recording = recordingAt(room, request.params);
    if (recording === null) next();
    else response.json(await soundOf(room, recording, request));
  });
  router.get('/pupils/:slug/recordings/:id/as-it-could-be', async (request, response, next) => {
    const recording = recordingAt(room, request.params);
    if (recording === null) next();
    else sendPage(response, { view: 'sound', title: `${recording.pupil.name}, ${recording.piece.title}: as it could be`, sound: await inWords(room, recording) });
  });
  router.get('/pupils/:slug/recordings/:id/as-it-could-be/:file', async (request, response, next) => {
    const recording = recordingAt(room, request.params);
    const name = request.params.file.replace(/\.mid$/, '');
    if (recording === null || !isVersionName(name)) next();
    else response.type('audio/midi').attachment(`${name}.mid`).send(Buffer.from(recordingBytes(makeVersion(name, await inputOf(room, recording)).recording, { name })));
  });
  return router;
}

/** Everything that versions are made from. */
async function inputOf(room: Room, recording: FiledRecording): Promise<SoundInput> {
  const reading = await readingOf(room, recording);
  const { observations } = judgeAll({ ...reading, language: 'british', decisions: asDecisions(holding(room, recording)) });
  return { ...reading, observations };
}

/** Keys, dampers and places of one version; `?as=` names it, as played without. `?beside=` names the recording that it is matched in level with. */
async function soundOf(room: Room, recording: FiledRecording, request: Request) {
  const asked = request.query['as'];
  const input = await inputOf(room, recording);
  const version = isVersionName(asked) ? makeVersion(asked, input) : null;
  return {
    format: 'barwise-sound/1',
    as: version?.name ?? 'played',
    playback: playbackOf(version?.recording ?? input.recording),
    clock: version?.clock ?? [],
    gainDb: await gainBeside(room, input.recording, { recording, asked: request.query['beside'] }),
    changes: version === null ? [] : changesOf(room, input, version),
    ...(version === null ? { moments: shownMoments(input), bars: shownBars(input), versions: offered(input).map((name) => ({ name, words: versionInWords(name) })), others: othersOf(room, recording) } : {}),
  };
}

/** By how much this recording is turned down to sound as loud as another one of the piece, dB. */
async function gainBeside(room: Room, played: Recording, { recording, asked }: { readonly recording: FiledRecording; readonly asked: unknown }): Promise<number> {
  const other = typeof asked === 'string' && /^\d{1,12}$/.test(asked) ? room.store.recording(Number(asked)) : null;
  if (other === null || other.piece.id !== recording.piece.id) return 0;
  return levelsMatched(played, (await inputOf(room, other)).recording).firstDb;
}

/** Other recordings of the same piece by the same pupil, newest first. */
function othersOf(room: Room, recording: FiledRecording): readonly { readonly id: number; readonly address: string; readonly when: string }[] {
  const own = room.store.recordings().filter((other) => other.id !== recording.id && other.piece.id === recording.piece.id && other.pupil.id === recording.pupil.id);
  return own.map((other) => ({ id: other.id, address: recordingAddress(other), when: reviewHead(room, other).when.words }));
}

/** The versions in which something would change: by what is remarked on, so that none has to be made to know. */
function offered({ observations, alignment }: SoundInput): readonly VersionName[] {
  const remarked = new Set<string>(observations.map(({ aspect }) => aspect));
  const slips = alignment.added.some(({ near, stretch }) => near !== null && stretch !== null) || alignment.missed.length > 0 || alignment.pairs.some(({ octaveSlip }) => octaveSlip !== 0);
  return VERSION_NAMES.filter((name) => name === 'printed' || name === 'pulse' || (name === 'notes' ? slips : remarked.has(name)));
}

/** What a version would do, with its bars. */
function changesOf(room: Room, { score }: SoundInput, { changes }: Version): readonly { readonly barIndex: number; readonly startS: number; readonly text: string }[] {
  const names = barNames(score, room.language);
  return changes.map(({ barIndex, startS, text }) => ({ barIndex, startS, text: `${sentenceCase(names.long(barIndex))}: ${spokenIn(text, room.language)}.` }));
}

/** The page that says it in words. */
async function inWords(room: Room, recording: FiledRecording) {
  const input = await inputOf(room, recording);
  const anchors = barAnchors(input.score);
  const names = barNames(input.score, room.language);
  const versions = offered(input).map((name) => {
    // what it would do in several bars is said once, with all of them
    const alike = [...groupBy(makeVersion(name, input).changes, ({ text }) => text)].map(([text, changes]) => ({ text, bars: [...new Set(changes.map(({ barIndex }) => barIndex))].sort((x, y) => x - y) }));
    return {
      name, title: sentenceCase(versionInWords(name)), file: `${recordingAddress(recording)}/as-it-could-be/${name}.mid`,
      changes: alike.map(({ text, bars }) => ({ text, places: bars.map((barIndex) => ({ where: names.long(barIndex), href: `${recordingAddress(recording)}#${anchors[barIndex] ?? ''}` })) })),
    };
  });
  return { head: reviewHead(room, recording), versions: versions.filter(({ changes }) => changes.length > 0) };
}
