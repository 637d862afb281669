import type {
  PlanPoint,
  PointRole,
  PumpPoint,
  SourcePoint,
  StandpipePoint,
  TankPoint,
  TroughPoint,
} from '../model/plan.ts';
import type { FileOf, PartCodec } from './fields.ts';
import { type Coordinates, fromCoordinates, toCoordinates } from './fields.ts';
import { pumpSchema, sourceSchema, standpipeSchema, tankSchema, troughSchema } from './point-schema.ts';
import { asIs, litres, litresPerMinute, millimetres, orNull } from './scale.ts';

function featureOf(point: PlanPoint) {
  return {
    type: 'Feature' as const,
    id: point.id,
    geometry: { type: 'Point' as const, coordinates: toCoordinates(point.position) },
  };
}

interface PointFeature {
  readonly id: string;
  readonly geometry: { readonly coordinates: Coordinates };
  readonly properties: { readonly name: string; readonly note: string };
}

function baseOf(file: PointFeature) {
  const { name, note } = file.properties;
  return { id: file.id, name, position: fromCoordinates(file.geometry.coordinates), note };
}

const source: PartCodec<SourcePoint, FileOf<typeof sourceSchema>> = {
  schema: sourceSchema,
  toFile: (point) => ({
    ...featureOf(point),
    properties: {
      role: 'source',
      name: point.name,
      note: point.note,
      water_level_m: asIs.toFile(point.waterLevel),
      storage_L: litres.toFile(point.storage),
    },
  }),
  fromFile: (file) => ({
    role: 'source',
    ...baseOf(file),
    waterLevel: asIs.fromFile(file.properties.water_level_m),
    storage: litres.fromFile(file.properties.storage_L),
  }),
};

const standpipe: PartCodec<StandpipePoint, FileOf<typeof standpipeSchema>> = {
  schema: standpipeSchema,
  toFile: (point) => ({
    ...featureOf(point),
    properties: {
      role: 'standpipe',
      name: point.name,
      note: point.note,
      inlet_height_m: asIs.toFile(point.inletHeight),
      top_height_m: asIs.toFile(point.topHeight),
      bore_mm: millimetres.toFile(point.bore),
    },
  }),
  fromFile: (file) => ({
    role: 'standpipe',
    ...baseOf(file),
    inletHeight: asIs.fromFile(file.properties.inlet_height_m),
    topHeight: asIs.fromFile(file.properties.top_height_m),
    bore: millimetres.fromFile(file.properties.bore_mm),
  }),
};

const pump: PartCodec<PumpPoint, FileOf<typeof pumpSchema>> = {
  schema: pumpSchema,
  toFile: (point) => ({
    ...featureOf(point),
    properties: {
      role: 'pump',
      name: point.name,
      note: point.note,
      waste_valve_height_m: asIs.toFile(point.wasteValveHeight),
    },
  }),
  fromFile: (file) => ({
    role: 'pump',
    ...baseOf(file),
    wasteValveHeight: asIs.fromFile(file.properties.waste_valve_height_m),
  }),
};

const tank: PartCodec<TankPoint, FileOf<typeof tankSchema>> = {
  schema: tankSchema,
  toFile: (point) => ({
    ...featureOf(point),
    properties: {
      role: 'tank',
      name: point.name,
      note: point.note,
      inlet_height_m: asIs.toFile(point.inletHeight),
      outlet_height_m: asIs.toFile(point.outletHeight),
      volume_L: litres.toFile(point.volume),
      standing: point.standing,
    },
  }),
  fromFile: (file) => ({
    role: 'tank',
    ...baseOf(file),
    inletHeight: asIs.fromFile(file.properties.inlet_height_m),
    outletHeight: asIs.fromFile(file.properties.outlet_height_m),
    volume: litres.fromFile(file.properties.volume_L),
    standing: file.properties.standing,
  }),
};

const trough: PartCodec<TroughPoint, FileOf<typeof troughSchema>> = {
  schema: troughSchema,
  toFile: (point) => ({
    ...featureOf(point),
    properties: {
      role: 'trough',
      name: point.name,
      note: point.note,
      valve_height_m: asIs.toFile(point.valveHeight),
      volume_L: litres.toFile(point.volume),
      ...(point.herdShare !== null && { herd_share: asIs.toFile(point.herdShare) }),
      ...(point.valveFlow !== null && { valve_flow_L_per_min: litresPerMinute.toFile(point.valveFlow) }),
    },
  }),
  fromFile: (file) => ({
    role: 'trough',
    ...baseOf(file),
    valveHeight: asIs.fromFile(file.properties.valve_height_m),
    volume: litres.fromFile(file.properties.volume_L),
    herdShare: file.properties.herd_share ?? null,
    valveFlow: orNull(litresPerMinute.fromFile)(file.properties.valve_flow_L_per_min ?? null),
  }),
};

export const pointCodecs = { source, standpipe, pump, tank, trough };

export type PointFile = ReturnType<(typeof pointCodecs)[PointRole]['toFile']>;

export function isPointRole(role: string): role is PointRole {
  return Object.hasOwn(pointCodecs, role);
}

export function pointToFile(point: PlanPoint): PointFile {
  switch (point.role) {
    case 'source':
      return source.toFile(point);
    case 'standpipe':
      return standpipe.toFile(point);
    case 'pump':
      return pump.toFile(point);
    case 'tank':
      return tank.toFile(point);
    case 'trough':
      return trough.toFile(point);
  }
}
