/** Where an address lies that is not out in the public network. */
export type OwnNetwork = 'this-machine' | 'own-network' | 'this-link';

/**
 * Whether a host is this machine, one of the network that the machine is in, or one that only its own link reaches; null for any
 * other. `host` is the host of an address as a URL has it: other ways to write a number are its own by then.
 *
 * Sources: RFC 1122 3.2.1.3 (127/8), RFC 1918 (10/8, 172.16/12, 192.168/16), RFC 6598 (100.64/10), RFC 3927 (169.254/16), RFC 4291
 * 2.5 (::1, fe80::/10, ::ffff:0:0/96), RFC 4193 (fc00::/7), RFC 6761 6.3 (.localhost), RFC 6762 3 (.local), RFC 8375 (home.arpa).
 */
export function networkOf(host: string): OwnNetwork | null {
  const name = host.toLowerCase().replace(/\.$/, '');
  if (name.startsWith('[')) return networkOfLong(name.slice(1, -1));
  if (/^\d+\.\d+\.\d+\.\d+$/.test(name)) return networkOfShort(name.split('.').map(Number));
  if (name === 'localhost' || name.endsWith('.localhost')) return 'this-machine';
  if (name.endsWith('.local')) return 'this-link';
  return name.endsWith('.home.arpa') || name.endsWith('.internal') || !name.includes('.') ? 'own-network' : null;
}

function networkOfShort([a = 0, b = 0]: readonly number[]): OwnNetwork | null {
  if (a === 127 || a === 0) return 'this-machine';
  if (a === 169 && b === 254) return 'this-link';
  const own =
    a === 10 || (a === 172 && b >= 16 && b < 32) || (a === 192 && b === 168) || (a === 100 && b >= 64 && b < 128);
  return own ? 'own-network' : null;
}

function networkOfLong(address: string): OwnNetwork | null {
  if (address === '::1' || address === '::') return 'this-machine';
  const mapped = /^::ffff:([0-9a-f]{1,4}):([0-9a-f]{1,4})$/.exec(address);
  if (mapped !== null) {
    const [high, low] = [Number.parseInt(mapped[1] ?? '0', 16), Number.parseInt(mapped[2] ?? '0', 16)];
    return networkOfShort([high >> 8, high & 255, low >> 8, low & 255]);
  }
  const first = Number.parseInt(address.split(':')[0] || '0', 16);
  if ((first & 0xffc0) === 0xfe80) return 'this-link';
  return (first & 0xfe00) === 0xfc00 ? 'own-network' : null;
}
