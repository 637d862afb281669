import { describe, expect, it } from 'vitest';
import { networkOf } from '../../src/terrain/bytes/address-network.ts';

const of = (address: string) => networkOf(new URL(address).hostname);

describe('where an address lies', () => {
  // The ranges' own first and last addresses, from the RFCs that are named beside the code, and their neighbours outside.
  it.each([
    ['https://127.0.0.1/', 'this-machine'],
    ['https://127.255.255.254/', 'this-machine'],
    ['https://2130706433/', 'this-machine'],
    ['https://0x7f.1/', 'this-machine'],
    ['https://localhost:8000/', 'this-machine'],
    ['https://dem.localhost/', 'this-machine'],
    ['https://[::1]/', 'this-machine'],
    ['https://[::ffff:127.0.0.1]/', 'this-machine'],
    ['https://10.0.0.0/', 'own-network'],
    ['https://10.255.255.255/', 'own-network'],
    ['https://172.16.0.0/', 'own-network'],
    ['https://172.31.255.255/', 'own-network'],
    ['https://192.168.1.1/', 'own-network'],
    ['https://100.64.0.0/', 'own-network'],
    ['https://100.127.255.255/', 'own-network'],
    ['https://[fc00::1]/', 'own-network'],
    ['https://[fdff::1]/', 'own-network'],
    ['https://[::ffff:10.1.2.3]/', 'own-network'],
    ['https://nas/', 'own-network'],
    ['https://nas.home.arpa/', 'own-network'],
    ['https://169.254.169.254/', 'this-link'],
    ['https://[fe80::1]/', 'this-link'],
    ['https://[febf::1]/', 'this-link'],
    ['https://nas.local/', 'this-link'],
    ['https://NAS.LOCAL./', 'this-link'],
    ['https://9.255.255.255/', null],
    ['https://11.0.0.0/', null],
    ['https://172.15.255.255/', null],
    ['https://172.32.0.0/', null],
    ['https://192.169.0.0/', null],
    ['https://100.63.255.255/', null],
    ['https://100.128.0.0/', null],
    ['https://169.253.0.0/', null],
    // Addresses and names set aside for documents: RFC 5737, RFC 3849, RFC 2606.
    ['https://192.0.2.1/', null],
    ['https://[2001:db8::1]/', null],
    ['https://[fec0::1]/', null],
    ['https://local.example/', null],
    ['https://dem.example/', null],
  ])('%s is %s', (address, network) => {
    expect(of(address)).toBe(network);
  });
});
