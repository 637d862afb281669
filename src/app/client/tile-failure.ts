/** Why a tile did not come. */
export type TileFailure =
  | { readonly kind: 'silent' }
  | { readonly kind: 'not-shared' }
  | { readonly kind: 'status'; readonly status: number }
  | { readonly kind: 'too-large' }
  | { readonly kind: 'no-picture' };

/** No content, not found, gone. Source: RFC 9110, section 15. */
const MISSING = new Set([204, 404, 410]);

/** A tile that did not come; the map goes on without it. */
export class TileRefused extends Error {
  readonly failure: TileFailure;
  /** The map library takes 404 for a tile that is not there, and enlarges a coarser one in its place. */
  readonly status: number | undefined;

  constructor(failure: TileFailure) {
    super(`map tile: ${failure.kind}`);
    this.name = 'TileRefused';
    this.failure = failure;
    this.status = failure.kind === 'status' && MISSING.has(failure.status) ? 404 : undefined;
  }
}

/** Whether a failure is worth words: one missing tile among others is no more than the edge of a map. */
export function isTold(came: { readonly some: boolean; readonly failure: TileFailure | null }): boolean {
  const { some, failure } = came;
  return failure !== null && !(some && failure.kind === 'status' && MISSING.has(failure.status));
}

/** A failure in one sentence. */
export function failureSentence(failure: TileFailure, host: string): string {
  switch (failure.kind) {
    case 'silent':
      return `No map tiles: nobody answers at ${host}. Check the address and the connection.`;
    case 'not-shared':
      return `No map tiles: ${host} answers, but does not let other pages read its tiles (it sends no Access-Control-Allow-Origin).`;
    case 'too-large':
      return `No map tiles: ${host} sends more than a tile can hold.`;
    case 'no-picture':
      return `No map tiles: what ${host} sends is no picture (JPEG, PNG or WebP). Vector tiles are not read.`;
    case 'status':
      return statusSentence(failure.status, host);
  }
}

function statusSentence(status: number, host: string): string {
  if (MISSING.has(status)) return `No map tiles: ${host} has none at this address for this place (status ${status}).`;
  if (status === 401 || status === 403)
    return `No map tiles: ${host} does not give them out (status ${status}); it may ask for a key in the address.`;
  if (status === 429) return `${host} gives no more map tiles for now (status 429): too many were asked for.`;
  return `No map tiles: ${host} answered status ${status}.`;
}

/** The server of an address, as a sentence names it. */
export function hostOf(address: string): string {
  return URL.canParse(address) ? new URL(address).host : address;
}
