import { addressName, shownAddress } from '../../terrain/bytes/address-name.ts';
import { networkOf, type OwnNetwork } from '../../terrain/bytes/address-network.ts';
import type { Problem } from '../../units/outcome.ts';
import type { NamedAddress } from '../../worker/messages.ts';

/** What was typed: the addresses that can be asked, and what stands against the other lines. */
export interface TypedAddresses {
  readonly files: readonly NamedAddress[];
  readonly problems: readonly Problem[];
}

const MOST_FILES = 100;
const MOST_LETTERS = 2000;
/** Names under which a machine knows itself, as the page's security policy has them. */
const THIS_MACHINE: readonly string[] = ['localhost', '127.0.0.1'];

/** Reads addresses, one a line. `page` is the origin of the page itself, which it may always ask. */
export function typedAddresses(text: string, page: string): TypedAddresses {
  const files: NamedAddress[] = [];
  const problems: Problem[] = [];
  for (const line of text.split(/\r?\n/).map((each) => each.trim())) {
    if (line === '') continue;
    const read = readAddress(line, page);
    if (typeof read !== 'string') problems.push(read);
    else if (files.some(({ address }) => address === read)) problems.push(problemOf('address-twice', line));
    else files.push({ address: read, name: nameFor(read, files) });
  }
  if (files.length > MOST_FILES) {
    problems.push({ code: 'address-many', path: '', found: `${files.length} addresses`, expected: `${MOST_FILES}` });
  }
  return { files, problems };
}

/** Files of the same name are told apart by their addresses. */
function nameFor(address: string, before: readonly NamedAddress[]): string {
  const name = addressName(address) ?? address;
  return before.some((file) => file.name === name) ? shownAddress(address) : name;
}

function readAddress(line: string, page: string): string | Problem {
  if (line.length > MOST_LETTERS) {
    const sizes = { found: `${line.length} letters`, expected: `${MOST_LETTERS} at most` };
    return { code: 'address-long', path: line.slice(0, 40), ...sizes };
  }
  const url = URL.canParse(line) ? new URL(line) : null;
  if (url?.protocol === 'file:') return problemOf('address-of-disk', line);
  if (url === null || !/^https?:$/.test(url.protocol) || /\s/.test(line)) return problemOf('address', line);
  if (url.username !== '' || url.password !== '') return problemOf('address-credentials', withoutCredentials(url));
  const askable = url.protocol === 'https:' || url.origin === page || THIS_MACHINE.includes(url.hostname);
  if (!askable) return problemOf('address-in-the-clear', line);
  url.hash = '';
  return url.href;
}

function problemOf(code: string, line: string): Problem {
  return { code, path: shownAddress(line), found: line, expected: 'an address that starts https://' };
}

function withoutCredentials(url: URL): string {
  return `${url.protocol}//…@${url.host}${url.pathname}`;
}

/** The files by the servers that would be asked for them. */
export function filesByHost(
  files: readonly NamedAddress[],
): readonly { readonly host: string; readonly names: readonly string[]; readonly network: OwnNetwork | null }[] {
  const hosts = new Map<string, string[]>();
  for (const { address, name } of files) {
    const { host } = new URL(address);
    hosts.set(host, [...(hosts.get(host) ?? []), name]);
  }
  return [...hosts].map(([host, names]) => ({ host, names, network: networkOf(new URL(`https://${host}`).hostname) }));
}
