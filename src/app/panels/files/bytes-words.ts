const KILO = 1000;
const MEGA = 1_000_000;

/** How much came over the network, in kB or MB. */
export function bytesWords(bytes: number): string {
  return bytes < MEGA ? `${Math.round(bytes / KILO)} kB` : `${(bytes / MEGA).toFixed(1)} MB`;
}
