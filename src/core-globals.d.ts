/**
 * The few WHATWG globals that browsers and Node share and the core may use.
 * The core compiles without the DOM library and without Node types; whatever is not listed here does not exist for it.
 */

interface AbortSignal {
  readonly aborted: boolean;
  readonly reason: unknown;
  throwIfAborted(): void;
}

declare class TextDecoder {
  constructor(label?: string, options?: { fatal?: boolean });
  decode(input?: ArrayBuffer | ArrayBufferView): string;
}

declare class TextEncoder {
  encode(input?: string): Uint8Array<ArrayBuffer>;
}
