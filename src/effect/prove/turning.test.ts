import { expect, it } from 'vitest';
import { fractalOnPixels } from '../../field/footprint.ts';
import { addFractalRow, fractalNoise } from '../../field/fractal.ts';
import { defineEffect } from '../effect.ts';
import { numeric } from '../parameter.ts';
import { openBench } from './bench.ts';
import { tryTurning } from './turning.ts';

/** Streaks that run in the direction of an angle. */
function streaks(directionAt: (angle: number) => number, across = 0.8) {
  const effect = defineEffect({
    apiVersion: 1,
    name: 'streaks',
    version: '1.0.0',
    summary: 'Streaks.',
    parameters: { angle: numeric({ unit: 'deg', min: 0, max: 360, default: 30, help: 'Where they run.' }) },
    planes: ['shade'],
    prepare: ({ box, random, parameters }) =>
      fractalNoise(
        box.lattice,
        { along: 20, across, direction: directionAt(parameters.angle) },
        { octaves: 2, gain: 0.5, deviation: 0.08 },
        random('streaks'),
      ),
    paint(model, { x, y, width, height, mmPerPixelX, mmPerPixelY }, layer) {
      const noise = fractalOnPixels(model, mmPerPixelX, mmPerPixelY);
      for (let row = 0; row < height; row++) {
        const down = (y + row + 0.5) * mmPerPixelY;
        addFractalRow(noise, (x + 0.5) * mmPerPixelX, mmPerPixelX, down, 1, layer.shade, width, row * width);
      }
    },
  });
  return openBench(effect);
}

it.each<[string, (angle: number) => number, number]>([
  ['clockwise', (angle) => angle, 1],
  ['clockwise, counted from below', (angle) => angle + 90, 1],
  ['clockwise, half as much', (angle) => angle / 2, 0],
  ['not at all', () => 30, 0],
])('what turns %s is let be', async (_, directionAt, turning) => {
  expect(await tryTurning(streaks(directionAt))).toBe(turning);
});

it('what has no direction is let be, whichever way it is turned', async () => {
  expect(await tryTurning(streaks((angle) => -angle, 20))).toBe(0);
});

it('what turns back is not, wherever it is counted from', async () => {
  await expect(tryTurning(streaks((angle) => -angle))).rejects.toThrow('to turn clockwise');
  await expect(tryTurning(streaks((angle) => 90 - angle))).rejects.toThrow('to turn clockwise');
});
