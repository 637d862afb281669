import * as z from 'zod/mini';
import type { PlanPipe } from '../model/plan.ts';
import type { FileOf, PartCodec } from './fields.ts';
import { bore_mm, identifier, line, positive, rowName, within } from './fields.ts';
import { kilopascals, millimetres, orNull } from './scale.ts';

export const pipeSchema = z.discriminatedUnion('kind', [
  z.strictObject({ id: identifier, kind: z.literal('row'), row: rowName }),
  z.strictObject({
    id: identifier,
    kind: z.literal('own'),
    label: line,
    material: z.enum(['steel', 'copper', 'pvc', 'pe']),
    bore_mm,
    wall_mm: positive(500),
    roughness_mm: within(0, 10),
    rating_kPa: z.nullable(positive(100_000)),
  }),
]);

export const pipeCodec: PartCodec<PlanPipe, FileOf<typeof pipeSchema>> = {
  schema: pipeSchema,
  toFile: (pipe) =>
    pipe.kind === 'row'
      ? { id: pipe.id, kind: 'row', row: pipe.row }
      : {
          id: pipe.id,
          kind: 'own',
          label: pipe.label,
          material: pipe.material,
          bore_mm: millimetres.toFile(pipe.bore),
          wall_mm: millimetres.toFile(pipe.wall),
          roughness_mm: millimetres.toFile(pipe.roughness),
          rating_kPa: orNull(kilopascals.toFile)(pipe.rating),
        },
  fromFile: (file) =>
    file.kind === 'row'
      ? { id: file.id, kind: 'row', row: file.row }
      : {
          id: file.id,
          kind: 'own',
          label: file.label,
          material: file.material,
          bore: millimetres.fromFile(file.bore_mm),
          wall: millimetres.fromFile(file.wall_mm),
          roughness: millimetres.fromFile(file.roughness_mm),
          rating: orNull(kilopascals.fromFile)(file.rating_kPa),
        },
};
