import { fileURLToPath } from 'node:url';
import type { Response } from 'express';

/** The pages' templates, found from here both in `src/web` and in `dist/web`. */
export const VIEWS_FOLDER = fileURLToPath(new URL('../../views', import.meta.url));

/** Scripts, styles and fonts as the build leaves them. */
export const ASSETS_FOLDER = fileURLToPath(new URL('../../dist/browser', import.meta.url));

/**
 * Sends a page. `title` is the whole title of the window; the rest is what the template needs.
 */
export function sendPage(response: Response, page: { readonly view: string; readonly title: string; readonly status?: number } & Readonly<Record<string, unknown>>): void {
  response.status(page.status ?? 200).render(page.view, page);
}
