/** An address of this room: one stroke, then anything but a second one of either kind. */
const OWN_ADDRESS = /^\/(?![/\\])/;

/** An address to go back to, or the desk where it is none of this room. */
export function ownAddress(address: string): string {
  return OWN_ADDRESS.test(address) ? address : '/';
}
