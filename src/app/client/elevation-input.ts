import type { NamedAddress } from '../../worker/messages.ts';

/** Where elevation comes from: a file of this machine, or one at an address that the user typed. */
export type ElevationInput = File | NamedAddress;

/** How a plan remembers it: a file by its name, a file elsewhere by its whole address. */
export function referenceOfInput(input: ElevationInput): string {
  return 'address' in input ? input.address : input.name;
}
