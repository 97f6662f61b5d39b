import { describe, expect, it } from 'vitest';
import { Fault } from '../fault.ts';
import { STRAIGHT } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { cellLattice } from './cells.ts';
import { fractalNoise } from './fractal.ts';
import { gaussianBlur } from './gaussian.ts';
import { emptyField, fieldShape } from './periodic.ts';
import { poissonPoints } from './poisson.ts';
import { randomStream } from './random.ts';
import { torusNoise } from './torus.ts';

const box = boxOf({ layout: STRAIGHT, width: 640, height: 640 });
const random = () => randomStream('seed', 'faults');

const ATTEMPTS: Record<string, (value: number) => unknown> = {
  'a cell without length': (along) => cellLattice(box.lattice, { along, across: 1 }),
  'a cell without width': (across) => cellLattice(box.lattice, { along: 1, across }),
  'no octaves': (octaves) =>
    fractalNoise(box.lattice, { along: 9, across: 9 }, { octaves, gain: 0.5 }, random()),
  'a field without cells': (mmPerCell) => emptyField(box, mmPerCell),
  'points without distance': (distance) => poissonPoints(box, distance, random()),
  'torus noise without size': (size) => torusNoise(box.lattice, size, random()),
};

describe.each(Object.keys(ATTEMPTS))('%s', (name) => {
  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('is refused by name: %d', (value) => {
    expect(() => ATTEMPTS[name](value)).toThrow(Fault);
    expect(() => ATTEMPTS[name](value)).toThrow(`but received ${value}`);
  });
});

it('a blur of negative width is refused', () => {
  expect(() => gaussianBlur(emptyField(box, 64), -1)).toThrow(Fault);
});

it('more cells than memory should hold are refused before they are made', () => {
  expect(() => fieldShape(box, 0.01)).toThrow(
    /at most 134217728 cells for a field but received 64000 x 64000/,
  );
  expect(() => poissonPoints(box, 0.02, random())).toThrow(Fault);
});
