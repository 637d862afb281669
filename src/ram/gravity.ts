/** Standard acceleration of free fall, m/s². Source: BIPM, The International System of Units, 9th edition, 2019. */
export const standardGravity = 9.80665;
