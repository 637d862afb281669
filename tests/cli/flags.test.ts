import { describe, expect, it } from 'vitest';
import { readFlags, required } from '../../src/cli/input/flags.ts';
import { InputError } from '../../src/cli/input/io.ts';
import { nodeIo } from '../../src/cli/input/node-io.ts';
import { main } from '../../src/cli/main.ts';

const shapes = { '--dem': 'list', '--length': 'value', '--json': 'switch' } as const;

describe('flags', () => {
  it('take their values after a space or an equals sign', () => {
    for (const args of [['--length', '5m'], ['--length=5m']])
      expect(readFlags(args, shapes).quantity('--length', 'length')).toBe(5);
  });

  it('that take several files take all up to the next flag, and may be repeated', () => {
    const flags = readFlags(['plan.geojson', '--dem', 'a.tif', 'b.tif', '--json', '--dem=c.tif'], shapes);
    expect(flags.operands).toEqual(['plan.geojson']);
    expect(flags.list('--dem')).toEqual(['a.tif', 'b.tif', 'c.tif']);
    expect(flags.has('--json')).toBe(true);
  });

  it('that were not given are null, empty or absent', () => {
    const flags = readFlags([], shapes);
    expect(flags.text('--length')).toBeNull();
    expect(flags.quantity('--length', 'length')).toBeNull();
    expect(flags.list('--dem')).toEqual([]);
    expect(flags.has('--json')).toBe(false);
    expect(() => required(null, '--length', 'a length')).toThrow('--length is missing, expected a length');
    expect(required(0, '--length', 'a length')).toBe(0);
  });

  it('take a negative value as a value', () => {
    expect(readFlags(['--length', '-5m'], shapes).quantity('--length', 'length')).toBe(-5);
  });

  it.each([
    [['--dem', '--json'], /--dem: found no value/],
    [['--width', '5m'], /found --width, expected --dem, --length, --json/],
    [['--length='], /--length: found nothing, expected a length/],
    [['--length', '5 cubits'], /found 5 cubits in an unknown unit/],
    [['--length', '8ft 14in'], /found 8ft 14in, whose parts do not make one number/],
    [['--length', 'long'], /--length: found long, expected a length/],
  ])('%j is refused', (args, message) => {
    const read = (): unknown => readFlags(args, shapes).quantity('--length', 'length');
    expect(read).toThrow(InputError);
    expect(read).toThrow(message);
  });
});

describe('the command line and the world', () => {
  it('says that a fault is its own, and ends with 1', async () => {
    let err = '';
    const code = await main(['--help'], {
      ...nodeIo,
      out: () => {
        throw new Error('the output is gone');
      },
      err: (text) => {
        err += text;
      },
    });
    expect(code).toBe(1);
    expect(err).toMatch(/a fault of the program: Error: the output is gone/);
  });

  it('names a file that cannot be read', async () => {
    await expect(nodeIo.readText('tests/no-such-plan.geojson')).rejects.toThrow(
      'tests/no-such-plan.geojson: found no such file',
    );
    await expect(nodeIo.readText('tests')).rejects.toThrow('tests: found a folder, expected a file');
    await expect(nodeIo.readText('LICENSE')).resolves.toMatch(/MIT/);
  });
});
