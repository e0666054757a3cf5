import { hostname, type NetworkInterfaceInfo, networkInterfaces } from 'node:os';

/** By what this computer is called in its own networks. */
export interface OwnNames {
  /** Its private IPv4 addresses and the networks that they lie in, `192.168.1.0/24`. */
  readonly addresses: readonly { readonly address: string; readonly network: string }[];
  readonly names: readonly string[];
}

/**
 * Private addresses, which no computer of the internet has: source RFC 1918, section 3; RFC 3927 (169.254/16); and
 * loopback. Octets as patterns.
 */
const privateShape = /^(10|127|169\.254|192\.168|172\.(1[6-9]|2\d|3[01]))\./;

/** A host name that may stand in a certificate; source: RFC 1123, section 2.1. */
const nameShape = /^[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?$/;

/**
 * Private addresses and names of this computer. listening: the address that is listened on, 0.0.0.0 for all of them.
 */
export function ownNames(
  listening: string,
  interfaces: NodeJS.Dict<NetworkInterfaceInfo[]> = networkInterfaces(),
  called: string = hostname(),
): OwnNames {
  const addresses = Object.values(interfaces)
    .flatMap((list) => list ?? [])
    .filter(({ family, address }) => family === 'IPv4' && privateShape.test(address))
    .filter(({ address, internal }) => (listening === '0.0.0.0' ? !internal : address === listening))
    .map(({ address, netmask }) => ({ address, network: networkOf(address, netmask) }));
  const short = called.split('.')[0]!.toLowerCase();
  return {
    addresses,
    names: nameShape.test(short) && listening === '0.0.0.0' ? [short, `${short}.local`] : [],
  };
}

function networkOf(address: string, netmask: string): string {
  const [octets, mask] = [address, netmask].map((text) => text.split('.').map(Number)) as [
    number[],
    number[],
  ];
  const ones = mask.reduce((sum, octet) => sum + octet.toString(2).replaceAll('0', '').length, 0);
  return `${octets.map((octet, index) => octet & mask[index]!).join('.')}/${ones}`;
}
