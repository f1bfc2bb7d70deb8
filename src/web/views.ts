import { fileURLToPath } from 'node:url';
import type { Response } from 'express';

/** The pages' templates, found from here both in `src/web` and in `dist/web`. */
export const VIEWS_FOLDER = fileURLToPath(new URL('../../views', import.meta.url));

/** Scripts, styles and fonts as the build leaves them. */
export const ASSETS_FOLDER = fileURLToPath(new URL('../../dist/browser', import.meta.url));

/** A page: its template, the whole title of the window, and what else the template needs. */
export type PageParts = { readonly view: string; readonly title: string; readonly status?: number } & Readonly<Record<string, unknown>>;

/** Sends a page. What is set at its foot leads back to it; from a page about a failure, to the desk. */
export function sendPage(response: Response, page: PageParts): void {
  const { status = 200 } = page;
  response.status(status).render(page.view, status < 400 ? page : { ...page, here: '/' });
}
