import type * as z from 'zod/mini';

/** One part of a plan at the file's edge: what the file may say, and the exact step each way. */
export interface PartCodec<Part, File> {
  readonly schema: z.ZodMiniType<File>;
  toFile(part: Part): File;
  fromFile(file: File): Part;
}

/** The file's side of a part, from its schema. */
export type FileOf<Schema extends z.ZodMiniType> = z.output<Schema>;
