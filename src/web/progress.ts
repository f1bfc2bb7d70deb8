/**
 * What is happening to files that were just sent, told while it happens. A browser without script gets one page in the
 * end; the page's script asks for lines of JSON (one object a line) and hears of every step when it begins. No step is
 * guessed from the clock.
 */
import type { Request, Response } from 'express';
import { sendPage, type PageParts } from './views.js';

/** News of one file. */
export interface FileNews {
  /** Which file of the form, from 0, in the order they were sent: names need not differ. */
  readonly at: number;
  readonly file: string;
  /** What is being done with it now, or what became of it. */
  readonly text: string;
}

/** Tells news of a file to whoever waits. */
export type Tell = (news: FileNews) => void;

/** The last line: where to go on, or the page that shows what became of all files. */
export type Outcome = { readonly href: string } | { readonly page: string };

/** The way an answer takes: at once in the end, or line by line. */
export interface Reply {
  readonly tell: Tell;
  /** True where news have gone out already, so that nothing but a last line can follow. */
  readonly inLines: boolean;
  goTo(href: string): void;
  page(page: PageParts): void;
}

/** Lines of JSON, one object each. */
export const LINES = 'application/x-ndjson';

/** The way that was asked for. */
export function replyTo(request: Request, response: Response): Reply {
  return request.accepts(['html', LINES]) === LINES ? inLines(response) : atOnce(response);
}

/** One page, or the address of one. */
function atOnce(response: Response): Reply {
  return {
    tell: () => undefined,
    inLines: false,
    goTo: (href) => response.redirect(303, href),
    page: (page) => sendPage(response, page),
  };
}

/** A line for each piece of news; compressing would hold them back until there are enough. */
function inLines(response: Response): Reply {
  response.set({ 'Content-Type': LINES, 'Cache-Control': 'no-store, no-transform' });
  const write = (line: FileNews | Outcome): void => void response.write(`${JSON.stringify(line)}\n`);
  const end = (outcome: Outcome): void => {
    write(outcome);
    response.end();
  };
  return {
    tell: write,
    inLines: true,
    goTo: (href) => end({ href }),
    page: (page) => response.render(page.view, page, (error, html) => {
      if (error instanceof Error) response.destroy(error);
      else end({ page: html });
    }),
  };
}
