import { describe, expect, it } from 'vitest';
import { accuracyClasses, accuracyOfClass } from '../../src/terrain/accuracy/height-accuracy.ts';
import { accuracyNotes, inferHeightAccuracy } from '../../src/terrain/accuracy/height-accuracy-inferred.ts';

/** Names as the publishers of open elevation data give their files (from memory; invented tile numbers). */
const files = [
  {
    files: ['Copernicus_DSM_COG_10_N46_00_E008_00_DEM.tif'],
    cell: 25,
    quantum: 0,
    class: 'global-30m-steep',
    surface: 'surface',
  },
  { files: ['output_COP30.tif', 'GLO-30.tif'], cell: 30, quantum: 0, class: 'global-30m-steep', surface: 'surface' },
  { files: ['N46E008.SRTMGL1.tif'], cell: 28, quantum: 1, class: 'radar-30m', surface: 'surface' },
  { files: ['ALPSMLC30_N046E008_DSM.tif'], cell: 28, quantum: 1, class: 'radar-30m', surface: 'surface' },
  { files: ['USGS_13_n44w092_20230101.tif'], cell: 9, quantum: 0, class: 'seamless-10m', surface: 'unknown' },
  { files: ['dtm_1m.tif'], cell: 1, quantum: 0, class: 'lidar-1m-scrub', surface: 'ground' },
  { files: ['tile_DSM_50cm.tif'], cell: 0.5, quantum: 0, class: 'lidar-1m-scrub', surface: 'surface' },
  { files: ['farm.tif'], cell: 1, quantum: 0, class: 'lidar-1m-scrub', surface: 'unknown' },
  { files: ['farm.tif'], cell: 5, quantum: 0, class: 'lidar-5m', surface: 'unknown' },
  { files: ['farm.tif'], cell: 10, quantum: 1, class: 'older-10m', surface: 'unknown' },
  { files: ['farm.tif'], cell: 30, quantum: 1, class: 'radar-30m', surface: 'surface' },
  { files: ['farm.tif'], cell: 90, quantum: 0, class: 'global-90m', surface: 'surface' },
];

describe('the accuracy class of a file', () => {
  it.each(files)('called $files with cells of $cell m and steps of $quantum m is $class', (file) => {
    const { accuracy } = inferHeightAccuracy(file);
    expect(accuracy.id).toBe(file.class);
    expect(accuracy.surface).toBe(file.surface);
    expect(accuracy.cell).toBe(file.cell);
    expect(accuracy.quantum).toBe(file.quantum);
  });

  it('is not a 30 m product for a name alone: lidar cells stay lidar', () => {
    expect(inferHeightAccuracy({ files: ['compared_with_GLO30.tif'], cell: 1, quantum: 0 }).accuracy.id).toBe(
      'lidar-1m-scrub',
    );
  });

  it('says what it was told from', () => {
    expect(inferHeightAccuracy({ files: ['a.tif'], cell: 10, quantum: 1 }).because).toBe('whole-metres');
    expect(inferHeightAccuracy({ files: ['a.tif'], cell: 10, quantum: 0 }).because).toBe('cell-size');
    expect(inferHeightAccuracy({ files: ['SRTM.tif'], cell: 30, quantum: 1 }).because).toBe('file-name');
  });

  it('is none for a class that nobody has heard of', () => {
    expect(accuracyOfClass('guess', { cell: 1, quantum: 0 })).toBeNull();
  });

  it('has a source, a title and ranges in order, whichever it is', () => {
    expect(accuracyClasses.length).toBeGreaterThanOrEqual(9);
    expect(new Set(accuracyClasses.map((c) => c.id)).size).toBe(accuracyClasses.length);
    for (const c of accuracyClasses) {
      expect(c.title.length * c.source.length).toBeGreaterThan(0);
      expect(c.farRange).toBeGreaterThan(c.nearRange);
      expect(Math.min(c.nugget, c.near, c.far)).toBeGreaterThan(0);
    }
  });
});

describe('notes on an accuracy', () => {
  const codes = (file: (typeof files)[number]): string[] =>
    accuracyNotes(inferHeightAccuracy(file).accuracy, 'cell-size').map((n) => n.code);

  it('warn of trees and roofs on a surface model, ask on an unknown one and say nothing on bare ground', () => {
    const [copernicus, , , , , dtm, , farm] = files;
    if (!copernicus || !dtm || !farm) throw new Error('files');
    expect(codes(copernicus)).toContain('surface-model');
    expect(codes(farm)).toContain('surface-unknown');
    expect(codes(dtm)).toEqual(['accuracy-inferred']);
  });

  it('tell that cells of five metres and more flatten valleys and ridges', () => {
    const codesAt = (cell: number): string[] =>
      accuracyNotes(inferHeightAccuracy({ files: ['x.tif'], cell, quantum: 0 }).accuracy, null).map((n) => n.code);
    expect(codesAt(10)).toContain('cells-flatten');
    expect(codesAt(1)).not.toContain('cells-flatten');
  });

  it('tell of heights in whole metres', () => {
    const notes = accuracyNotes(inferHeightAccuracy({ files: ['x.tif'], cell: 30, quantum: 1 }).accuracy, null);
    expect(notes).toContainEqual({ code: 'height-steps', data: { step_m: 1 } });
    const centimetres = accuracyNotes(inferHeightAccuracy({ files: ['x.tif'], cell: 1, quantum: 0.01 }).accuracy, null);
    expect(centimetres.map((n) => n.code)).not.toContain('height-steps');
  });
});
