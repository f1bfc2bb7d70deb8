/** Copies of the room and of one pupil, and putting a copy of the room back. */
import { Router, type Response } from 'express';
import { unzipSync } from 'fflate';
import { InputError } from '../base/index.js';
import { inWords } from './errors.js';
import { pupilAddress, type Room } from './shared.js';
import { copyOfPupil, copyOfRoom, pack, ROWS_FILE } from './roomCopy.js';
import { readUpload, type UploadLimits } from './upload.js';
import { sendPage } from './views.js';

/** A copy may be larger than a form with scores: ten years of a full studio. */
const COPY_LIMITS: UploadLimits = { fileBytes: 512 * 1024 * 1024, formBytes: 520 * 1024 * 1024 };

/** Most bytes that a copy may hold unpacked (<=): what claims to be more is no copy of a room. */
const LARGEST_UNPACKED_BYTES = 1024 * 1024 * 1024;

/** The page about copies, taking them, putting one back. */
export function copyRoutes(room: Room): Router {
  const router = Router();
  router.get('/copies', (_request, response) => sendPage(response, copiesPage(room)));
  router.get('/copies/room.zip', async (_request, response) => send(response, `barwise-${dateOf(room)}.zip`, copyOfRoom(room.store)));
  router.get('/pupils/:slug/copy', async (request, response, next) => {
    const pupil = room.store.pupil(request.params.slug);
    if (pupil === null) next();
    else await send(response, `${pupil.slug}-${dateOf(room)}.zip`, copyOfPupil(room.store, pupil));
  });
  router.post('/copies/back', async (request, response) => {
    try {
      const { files } = await readUpload(request, () => undefined, COPY_LIMITS);
      const file = files[0];
      if (file === undefined) throw new InputError('empty', 'No copy was chosen. Choose the file that “Take a copy of everything” gave.');
      putBack(room, file.bytes);
      response.redirect(303, '/');
    } catch (error) {
      const { status, text } = inWords(room, error);
      sendPage(response, { ...copiesPage(room), status, problem: text });
    }
  });
  return router;
}

/** What the page shows. */
function copiesPage({ store }: Room) {
  const away = store.pupils({ removed: true }).map(({ name, slug }) => ({ name, href: pupilAddress(slug) }));
  return { view: 'copies', title: 'Copies', problem: '', away, empty: isEmpty(store) };
}

/** True where nothing but the demo room is here. */
function isEmpty(store: Room['store']): boolean {
  return [...store.pupils(), ...store.pupils({ removed: true }), ...store.pieces()].every(({ invented }) => invented);
}

/** Puts a copy in the place of the demo room. @throws InputError, nothing having changed */
function putBack({ store }: Room, zipped: Uint8Array): void {
  if (!isEmpty(store)) throw new InputError('unsupported', 'This room holds pupils or pieces of its own, which a copy would replace. Open the room with an empty data folder (--data) and put the copy back there.');
  const files = unpack(zipped);
  const rows = files[ROWS_FILE];
  if (rows === undefined) throw notACopy();
  const originals = Object.entries(files).filter(([path]) => path.includes('/')).map(([, bytes]) => bytes);
  store.putBack(parsed(rows), originals);
}

/** The files of a copy. @throws InputError where it is none, or claims to be endless */
function unpack(zipped: Uint8Array): Readonly<Record<string, Uint8Array>> {
  let total = 0;
  try {
    return unzipSync(zipped, {
      filter: ({ originalSize }) => {
        total += originalSize;
        if (total > LARGEST_UNPACKED_BYTES) throw notACopy();
        return true;
      },
    });
  } catch {
    throw notACopy();
  }
}

/** The rows. @throws InputError */
function parsed(rows: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder().decode(rows));
  } catch {
    throw notACopy();
  }
}

/** Something else than a copy. */
function notACopy(): InputError {
  return new InputError('bad-value', 'This is not a copy of a room, so nothing was changed. Choose the file that “Take a copy of everything” gave.');
}

/** Sends a copy while it is packed. */
async function send(response: Response, name: string, entries: Parameters<typeof pack>[0]): Promise<void> {
  response.attachment(name);
  response.type('application/zip');
  await pack(entries, (chunk, last) => {
    response.write(chunk);
    if (last) response.end();
  });
}

/** Today, for the name of a copy. */
function dateOf({ now }: Room): string {
  return now().toISOString().slice(0, 10);
}
