/** Name and version of this program, as reports state them. */
export const PROGRAM_ABOUT = { name: 'Rillwright', version: '0.1.0' } as const;
