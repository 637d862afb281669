/** Which set of colours the relief is painted in; the `over-picture` sets leave out the tint so that a picture shows. */
export type ReliefColours = 'light' | 'dark' | 'light-over-picture' | 'dark-over-picture';
