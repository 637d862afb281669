import { isPictureName } from '../../relief/picture/picture-parts.ts';

/**
 * What was brought before together with what comes now, where one of them is the picture and the other its companions; else
 * what comes now alone.
 */
export function withOtherHalf<File extends { readonly name: string }>(
  before: readonly File[],
  now: readonly File[],
): readonly File[] {
  const hasPicture = (files: readonly File[]) => files.some(({ name }) => isPictureName(name));
  if (before.length === 0 || (hasPicture(before) && hasPicture(now))) return now;
  const names = new Set(now.map(({ name }) => name));
  return [...before.filter(({ name }) => !names.has(name)), ...now];
}
