/** Finding a port on this computer. Where nothing else is said it is the loopback address: nobody else on the network reaches the room. */
import type { Server } from 'node:http';
import { InputError } from '../base/index.js';

/** Only this machine can reach the room. */
export const LOOPBACK = '127.0.0.1';

/** Ports tried one after another before giving up. */
const PORTS_TRIED = 20;

/** The last port there is. */
const LAST_PORT = 65_535;

/** Why a port is not to be had, in the system's codes: another program has it, or it is kept from this account. */
const NOT_THIS_ONE = new Set(['EADDRINUSE', 'EACCES']);

/** Why an address is not to be had: the machine does not have it, or nobody knows the name. */
const NO_SUCH_HOST = new Set(['EADDRNOTAVAIL', 'ENOTFOUND', 'EAI_AGAIN', 'EINVAL']);

/**
 * Listens on the first port that is to be had. Port 0 takes any.
 * @param host the address to listen on
 * @returns the port
 * @throws InputError code `unsupported` where none is, or this computer has no such address
 */
export async function listenFrom(server: Server, first: number, host = LOOPBACK): Promise<number> {
  const last = Math.min(first + PORTS_TRIED - 1, LAST_PORT);
  for (let port = first; port <= last; port++) {
    if (await tryListen(server, port, host)) return portOf(server);
  }
  const tried = first === last ? `Port ${first} is` : `All ports from ${first} to ${last} are`;
  throw new InputError('unsupported', `${tried} in use by other programs, or not open to this account. Choose another one with --port; 0 takes any that is free.`);
}

/** False where this port is not to be had. */
async function tryListen(server: Server, port: number, host: string): Promise<boolean> {
  return new Promise((resolve, reject) => {
    const failed = (error: NodeJS.ErrnoException): void => {
      server.off('listening', listening);
      if (NOT_THIS_ONE.has(error.code ?? '')) resolve(false);
      else if (NO_SUCH_HOST.has(error.code ?? '')) reject(new InputError('unsupported', `This computer has no address ${host} that the room could be opened at.`));
      else reject(error);
    };
    const listening = (): void => {
      server.off('error', failed);
      resolve(true);
    };
    server.once('error', failed);
    server.once('listening', listening);
    server.listen(port, host);
  });
}

/** The port of a server that listens. */
function portOf(server: Server): number {
  const address = server.address();
  if (address === null || typeof address === 'string') throw new TypeError('the server does not listen on a port');
  return address.port;
}
