/**
 * Who may talk to the room. Usually it listens on the loopback address alone, but any page in the teacher's browser can send
 * requests there too: names rebound to the loopback address, forms posted from elsewhere, pages in frames. Each
 * guard answers one of these.
 */
import type { RequestHandler } from 'express';
import helmet from 'helmet';

/**
 * Names under which this machine speaks to itself; a page elsewhere cannot pose as one of them.
 */
export const OWN_NAMES: ReadonlySet<string> = new Set(['localhost', '127.0.0.1', '[::1]']);

/** Requests that change nothing. */
const READING = new Set(['GET', 'HEAD', 'OPTIONS']);

/**
 * Security headers. Everything comes from this room; no inline script or style anywhere. The referrer policy must let
 * forms of the room tell their own origin (with "no-referrer" browsers send `Origin: null`).
 */
export function securityHeaders(): RequestHandler {
  return helmet({
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'self'"],
        scriptSrc: ["'self'"],
        styleSrc: ["'self'"],
        imgSrc: ["'self'", 'data:'],
        objectSrc: ["'none'"],
        baseUri: ["'none'"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
      },
    },
    referrerPolicy: { policy: 'same-origin' },
    strictTransportSecurity: false,
  });
}

/**
 * Refuses requests that call this room by another name: the defence against names rebound to the
 * address of this machine.
 * @param names the names it answers to, asked anew each time, since a machine changes its addresses
 */
export function onlyOwnName(names: () => ReadonlySet<string> = () => OWN_NAMES): RequestHandler {
  return (request, response, next) => {
    if (names().has(nameOf(request.headers.host ?? ''))) next();
    else response.status(421).type('text').send('This room answers only under its own name or address, which it told when it was opened.\n');
  };
}

/**
 * Refuses writing requests that another site has started. Programs that send neither header are
 * not browsers.
 * @param strict true refuses these too: where the room is open to others, a form has to say where it comes from
 */
export function onlyOwnPages({ strict = false }: { readonly strict?: boolean } = {}): RequestHandler {
  return (request, response, next) => {
    const { origin, host } = request.headers;
    const site = request.headers['sec-fetch-site'];
    const foreign = (origin !== undefined && origin !== `http://${host ?? ''}`) || (site !== undefined && site !== 'same-origin' && site !== 'none');
    const silent = strict && origin === undefined && site === undefined;
    if (READING.has(request.method) || !(foreign || silent)) next();
    else response.status(403).type('text').send('This form was sent from another site, so nothing was changed.\n');
  };
}

/** A Host header without its port, in lower case. */
function nameOf(host: string): string {
  return host.toLowerCase().replace(/:\d+$/, '');
}
