/**
 * Who may talk to the room. It listens on the loopback address, but any page in the teacher's browser can send
 * requests there too: names rebound to the loopback address, forms posted from elsewhere, pages in frames. Each
 * guard answers one of these.
 */
import type { RequestHandler } from 'express';
import helmet from 'helmet';

/**
 * Names under which this machine speaks to itself; a page elsewhere cannot pose as one of them.
 */
const OWN_NAMES = new Set(['localhost', '127.0.0.1', '[::1]']);

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
 * loopback address.
 */
export function onlyOwnName(): RequestHandler {
  return (request, response, next) => {
    if (OWN_NAMES.has(nameOf(request.headers.host ?? ''))) next();
    else response.status(421).type('text').send('This room answers only on this machine, at localhost.\n');
  };
}

/**
 * Refuses writing requests that another site has started. Programs that send neither header are
 * not browsers.
 */
export function onlyOwnPages(): RequestHandler {
  return (request, response, next) => {
    const { origin, host } = request.headers;
    const site = request.headers['sec-fetch-site'];
    const foreign = (origin !== undefined && origin !== `http://${host ?? ''}`) || (site !== undefined && site !== 'same-origin' && site !== 'none');
    if (READING.has(request.method) || !foreign) next();
    else response.status(403).type('text').send('This form was sent from another site, so nothing was changed.\n');
  };
}

/** A Host header without its port, in lower case. */
function nameOf(host: string): string {
  return host.toLowerCase().replace(/:\d+$/, '');
}
