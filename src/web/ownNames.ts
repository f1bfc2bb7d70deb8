/** Under which names and addresses other devices reach this machine. */
import { hostname, networkInterfaces } from 'node:os';
import { isIP } from 'node:net';
import { OWN_NAMES } from './guards.js';

/** Hosts that mean every address of this machine. */
const EVERYWHERE = new Set(['0.0.0.0', '::']);

/** True for a host that only this machine reaches. */
export function isOwnComputer(host: string): boolean {
  return host === 'localhost' || host === '::1' || /^127(\.\d{1,3}){3}$/.test(host);
}

/** Addresses of this machine that another device can call, IPv4 first. */
export function reachableAddresses(host: string): readonly string[] {
  if (!EVERYWHERE.has(host)) return [host];
  const all = Object.values(networkInterfaces()).flatMap((list) => list ?? []).filter(({ internal, address }) => !internal && !address.startsWith('fe80'));
  const sorted = [...all].sort((a, b) => a.family.localeCompare(b.family));
  return sorted.filter(({ family }) => host === '::' || family === 'IPv4').map(({ address }) => address);
}

/** Every name the room answers to when it listens on a host, in lower case, as a Host header writes them. */
export function namesFor(host: string): ReadonlySet<string> {
  const own = hostname().toLowerCase();
  return new Set([...OWN_NAMES, ...reachableAddresses(host).map((one) => inHeader(one).toLowerCase()), own, `${own}.local`]);
}

/** An address as it stands in an address line: an IPv6 one in brackets. */
export function inHeader(address: string): string {
  return isIP(address) === 6 ? `[${address}]` : address;
}
