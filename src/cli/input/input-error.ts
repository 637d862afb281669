/** Input that no answer can be given to, in one line: what was found and what was expected. */
export class InputError extends Error {
  override readonly name = 'InputError';
}
