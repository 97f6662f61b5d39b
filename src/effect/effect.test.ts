import { describe, expect, expectTypeOf, it } from 'vitest';
import { Fault } from '../fault.ts';
import { nearestName } from '../nearest.ts';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { checkEffect } from './contract.ts';
import { type ArtworkSetting, defineEffect } from './effect.ts';
import { neutralLayer, reuseLayer } from './layer.ts';
import { choice, colour, numeric, toggle } from './parameter.ts';
import { runStage } from './runner.ts';
import { openSetting } from './setting.ts';
import { parseValue, resolveValues } from './values.ts';

const parameters = {
  ends: numeric({ unit: 'per cm', min: 4, max: 40, default: 12, help: 'How many ends to the cm.' }),
  count: numeric({ unit: 'count', min: 1, max: 9, default: 3, whole: true, help: 'How many.' }),
  weave: choice({ options: ['plain', 'twill'], default: 'plain', help: 'The weave.' }),
  yarn: colour({ default: '#d8cdb4', help: 'The yarn.' }),
  slubs: toggle({ default: true, help: 'Slubs or none.' }),
};

const sample = defineEffect({
  apiVersion: 1,
  name: 'sample',
  version: '1.2.3',
  summary: 'A sample.',
  parameters,
  planes: ['shade', 'tint'],
  prepare: ({ parameters: { ends } }) => ({ ends }),
  paint(model, _band, layer) {
    expectTypeOf(model.ends).toEqualTypeOf<number>();
    expectTypeOf(layer.shade).toEqualTypeOf<Float32Array>();
    // @ts-expect-error the effect did not declare a load plane
    layer.load;
  },
});

const reader = defineEffect({
  apiVersion: 2,
  name: 'reader',
  version: '1.0.0',
  summary: 'Reads what is below.',
  parameters: {},
  planes: ['relief', 'load'],
  reads: ['shade', 'relief'],
  prepare: () => ({}),
  paint(_model, _band, layer, below) {
    expectTypeOf(layer.relief).toEqualTypeOf<Float32Array>();
    expectTypeOf(below.shade).toEqualTypeOf<Float32Array>();
    // @ts-expect-error the effect did not say that it reads a tint
    below.tint;
  },
});

const artworkReader = defineEffect({
  apiVersion: 2,
  name: 'artwork-reader',
  version: '1.0.0',
  summary: 'Reads the artwork.',
  parameters: {},
  planes: ['load'],
  reads: ['artwork'],
  prepare: ({ artwork }) => ({ alpha: artwork.alpha }),
  paint(model, _band, layer, ...below) {
    expectTypeOf(model.alpha).toEqualTypeOf<Float32Array>();
    expectTypeOf(layer.load).toEqualTypeOf<Float32Array>();
    expectTypeOf(below).toEqualTypeOf<[]>();
  },
});

describe('an effect that reads the artwork', () => {
  const box = { layout: { kind: 'straight', numerator: 0, denominator: 1 }, width: 4, height: 3 } as const;
  const lattice = { ax: 4, ay: 0, bx: 0, by: 3 };
  it('is handed it, frozen, and plain white where there is none', () => {
    const { artwork } = openSetting(artworkReader, { box: { ...box, lattice }, seed: '1' })
      .setting as unknown as ArtworkSetting;
    expect(Object.isFrozen(artwork)).toBe(true);
    expect([artwork.width, artwork.height, artwork.mmPerCellX]).toEqual([8, 6, 0.5]);
    expect(artwork.green.every((value) => value === 1)).toBe(true);
  });
  it('alone is', () => {
    expect('artwork' in openSetting(reader, { box: { ...box, lattice }, seed: '1' }).setting).toBe(false);
    const names = { ...reader, prepare: () => ({}) };
    // @ts-expect-error it did not say that it reads it
    defineEffect({ ...names, prepare: ({ artwork }) => ({ artwork }) });
  });
});

function faultOf(action: () => unknown): Fault {
  try {
    action();
  } catch (error) {
    if (Fault.is(error)) return error;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('parameter values', () => {
  it('fills in defaults and freezes', () => {
    const values = resolveValues('sample', parameters, { ends: 20 });
    expect(values).toEqual({ ends: 20, count: 3, weave: 'plain', yarn: '#d8cdb4', slubs: true });
    expect(Object.isFrozen(values)).toBe(true);
    expectTypeOf(values.weave).toEqualTypeOf<'plain' | 'twill'>();
  });
  it.each([
    [{ ends: 41 }, 'a number from 4 to 40 per cm'],
    [{ ends: Number.NaN }, 'received NaN'],
    [{ ends: '12' }, 'received "12"'],
    [{ count: 2.5 }, 'a whole number from 1 to 9'],
    [{ weave: 'satin' }, 'one of plain, twill'],
    [{ yarn: 'red' }, '#rrggbb'],
    [{ slubs: 1 }, 'true or false'],
    [{ end: 12 }, 'Did you mean "ends"?'],
    [{ toString: 1 }, 'No parameter of sample is called "toString"'],
  ])('refuses %j', (given, words) => {
    expect(faultOf(() => resolveValues('sample', parameters, given)).message).toContain(words);
  });
  it('says of what is no longer taken what to write instead', () => {
    const retired = { warp: 'Write ends.' };
    const words = 'sample no longer takes "warp". Write ends.';
    expect(faultOf(() => resolveValues('sample', parameters, { warp: 1 }, retired)).message).toBe(words);
    expect(faultOf(() => parseValue('sample', parameters, 'warp', '1', retired)).message).toBe(words);
  });
  it('reads text, with or without its unit', () => {
    expect(parseValue('sample', parameters, 'ends', '14.5')).toBe(14.5);
    expect(parseValue('sample', parameters, 'ends', '14 per cm')).toBe(14);
    expect(parseValue('sample', parameters, 'slubs', 'off')).toBe(false);
    expect(faultOf(() => parseValue('sample', parameters, 'ends', '')).message).toContain('received ""');
    expect(faultOf(() => parseValue('sample', parameters, 'ends', '14 mm')).message).toContain('per cm');
  });
});

describe('names', () => {
  it('suggests the one that was meant, and none that was not', () => {
    expect(nearestName('linen-weve', ['linen-weave', 'wood-grain'])).toBe('linen-weave');
    expect(nearestName('xyz', ['linen-weave', 'wood-grain'])).toBeUndefined();
  });
});

describe('the contract', () => {
  it('takes an effect that keeps it', () => {
    expect(checkEffect(sample, 'here')).toBe(sample);
    expect(checkEffect(reader, 'here')).toBe(reader);
    const fromLater = { ...sample, sound: () => 'of rain' };
    expect(checkEffect(fromLater, 'here')).toBe(fromLater);
  });
  it.each<[unknown, string]>([
    [undefined, 'received nothing'],
    [{ ...sample, apiVersion: 4 }, 'received 4. Update tenter'],
    [{ ...sample, apiVersion: undefined }, 'Write apiVersion: 3'],
    [
      { ...sample, apiVersion: 0 },
      'apiVersion 1 to 3, those this host speaks for here but received 0. Install a newer',
    ],
    [{ ...sample, apiVersion: '1' }, 'received "1"'],
    [
      { ...sample, parameters: { yarnCount: parameters.ends, yarncount: parameters.count } },
      'yarnCount and yarncount',
    ],
    [{ ...sample, retired: { warp: 3 } }, 'retired, a sentence'],
    [{ ...sample, name: 'Two Words' }, 'a name of lower case words'],
    [{ ...sample, planes: [] }, 'planes, some of load'],
    [{ ...sample, planes: ['glow'] }, 'received "glow"'],
    [{ ...reader, planes: ['parting'] }, 'received 2. Write apiVersion: 3 into the effect.'],
    [{ ...sample, planes: ['relief'] }, 'received 1. Write apiVersion: 2 into the effect.'],
    [{ ...sample, reads: ['relief'] }, 'received 1. Write apiVersion: 2 into the effect.'],
    [{ ...reader, reads: [] }, 'reads, some of artwork, load, tint, shade, relief, each once'],
    [{ ...reader, reads: ['load', 'load'] }, 'each once'],
    [{ ...reader, reads: 'load' }, 'received "load"'],
    [{ ...reader, reads: ['glow'] }, 'received "glow"'],
    [{ ...reader, reads: ['shift'] }, 'received "shift". What moves paint'],
    [{ ...sample, paint: 3 }, 'paint(model, band, layer)'],
    [{ ...sample, blend: 'glow' }, 'a blend mode'],
    [{ ...sample, parameters: { a: { ...parameters.ends, unit: 'furlong' } } }, 'received "furlong"'],
    [{ ...sample, parameters: { a: { ...parameters.ends, default: 50 } } }, 'a default that is'],
    [{ ...sample, parameters: { a: { ...parameters.ends, help: '' } } }, 'help sentence'],
  ])('refuses case %#', (candidate, words) => {
    const fault = faultOf(() => checkEffect(candidate, 'here'));
    expect(fault.kind).toBe('effect');
    expect(fault.message).toContain(words);
  });
});

describe('the runner', () => {
  const stamp = { stage: 'paint' as const, parameters: { ends: 12 }, seed: 'seven' };
  it('stamps whatever is thrown', () => {
    for (const thrown of [new Error('no yarn'), 'no yarn', undefined]) {
      const fault = faultOf(() =>
        runStage(sample, stamp, () => {
          throw thrown;
        }),
      );
      expect(fault.kind).toBe('effect');
      expect(fault.details).toMatchObject({
        effect: 'sample',
        version: '1.2.3',
        stage: 'paint',
        seed: 'seven',
      });
    }
  });
  it('stamps a promise that fails', async () => {
    const failing = runStage(sample, stamp, () => Promise.reject(new Error('late')));
    await expect(failing).rejects.toThrow(
      'Expected paint to finish for effect sample 1.2.3 but received Error: late',
    );
  });
  it("lets the user's own faults pass", () => {
    const usage = new Fault({ kind: 'usage', expected: 'a', subject: 'b', received: 'c' });
    expect(() =>
      runStage(sample, stamp, () => {
        throw usage;
      }),
    ).toThrow(usage);
  });
});

describe('a setting', () => {
  const box = boxOf({ layout: parseLayout('drop:1/2'), width: 30, height: 20 });
  it('gives the same named streams for the same seed, and others for another', () => {
    const draw = (seed: string, name: string) =>
      openSetting(sample, { box, seed }).setting.random(name).next();
    expect(draw('1', 'yarn')).toBe(draw('1', 'yarn'));
    expect(new Set([draw('1', 'yarn'), draw('2', 'yarn'), draw('1', 'slub')]).size).toBe(3);
  });
  it('cannot be changed by the effect', () => {
    const { setting } = openSetting(sample, { box, seed: '1' });
    expect(() => Object.assign(setting.box.lattice, { ay: 0 })).toThrow(TypeError);
    expect(() => Object.assign(setting.parameters, { ends: 1 })).toThrow(TypeError);
  });
  it('stops prepare where the render was given up', () => {
    const { setting } = openSetting(sample, { box, seed: '1', isCancelled: () => true });
    expect(faultOf(() => setting.progress(0.5)).kind).toBe('cancelled');
  });
});

describe('a texture layer', () => {
  it('starts neutral, also in used memory', () => {
    const layer = neutralLayer(['load', 'shade', 'tint', 'shift'], 4, 4);
    expect([layer.load![5], layer.shade![5], layer.tint![5], layer.shift![5]]).toEqual([1, 1, 0, 0]);
    layer.shade!.fill(0.3);
    const again = reuseLayer(layer, ['shade'], 2, 3);
    expect(again.shade!.buffer).toBe(layer.shade!.buffer);
    expect([...again.shade!]).toEqual(Array(6).fill(1));
    expect(again.tint).toBeUndefined();
  });
});
