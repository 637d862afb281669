/** The reversed polynomial of CRC-32. */
const POLYNOMIAL = 0xedb88320;

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let sum = byte;
  for (let bit = 0; bit < 8; bit++) sum = sum & 1 ? (sum >>> 1) ^ POLYNOMIAL : sum >>> 1;
  return sum;
});

/**
 * CRC-32 of the UTF-8 bytes of a text, as eight hexadecimal digits: whether what is found is what was written. It tells a torn
 * or zeroed text, not one that somebody forged.
 *
 * Source: ISO/IEC/IEEE 8802-3 (Ethernet), 3.2.9; the check value of "123456789" is cbf43926.
 */
export function checksum(text: string): string {
  let sum = 0xffffffff;
  for (const byte of new TextEncoder().encode(text)) sum = (sum >>> 8) ^ (TABLE[(sum ^ byte) & 255] ?? 0);
  return (~sum >>> 0).toString(16).padStart(8, '0');
}
