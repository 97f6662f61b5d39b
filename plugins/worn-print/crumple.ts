import {
  type Box,
  cellIndex,
  fieldShape,
  fractalAt,
  fractalNoise,
  poissonPoints,
  type RandomStream,
} from 'tenter';
import { type Crease, type CreaseHabit, runCrease } from './crease.ts';

const FOLD: CreaseHabit = { step: 2.2, turn: 0.017, kinks: 0.024, kink: 0.12, branches: 0.7 };
const CRUMPLE: CreaseHabit = { step: 1.3, turn: 0.115, kinks: 0.1, kink: 0.45, branches: 0.6 };
/** mm: a crease ends where another one runs as near as this. */
const NEAR = 1.2;

/** The folds that a sheet was kept in: most of them along or across it, none alike. */
export function foldsOf(box: Box, apart: number, random: RandomStream): Crease[] {
  const points = poissonPoints(box, 0.72 * apart, random);
  const marks = openMarks(box);
  const folds: Crease[] = [];
  for (let k = 0; k < points.x.length; k++) {
    const isSquare = random.next() < 0.72;
    const quarter = random.next() < 0.5 ? 0 : Math.PI / 2;
    const stray = 0.06 * random.normal();
    const heading = isSquare ? quarter + stray : random.between(0, Math.PI);
    const start = {
      x: points.x[k],
      y: points.y[k],
      heading,
      length: apart * random.between(0.7, 3),
      depth: random.between(0.5, 1.1) * (isSquare ? 1 : 0.8),
      half: random.between(0.5, 1.25),
    };
    for (const crease of runCrease(start, FOLD, marks.isTaken, random)) folds.push(crease);
    marks.add(folds);
  }
  return folds;
}

/** mm from crumple to crumple where the cloth was most crushed, and the size of what was crushed. */
const CRUMPLES = 11;
const CRUSHED = 70;

/** Small creases: gathered where it was crushed, and there they run much the same way. */
export function crumplesOf(box: Box, random: RandomStream): Crease[] {
  const cells = { along: CRUSHED, across: CRUSHED };
  const crushed = fractalNoise(box.lattice, cells, { octaves: 3, gain: 0.6 }, random);
  const [wayX, wayY] = [0, 1].map(() =>
    fractalNoise(box.lattice, { along: 55, across: 55 }, { octaves: 2, gain: 0.6 }, random),
  );
  const points = poissonPoints(box, CRUMPLES, random);
  const marks = openMarks(box);
  const crumples: Crease[] = [];
  for (let k = 0; k < points.x.length; k++) {
    const [x, y] = [points.x[k], points.y[k]];
    const crush = fractalAt(crushed, x, y) + 0.5 * random.normal();
    const size = random.normal();
    const stray = 0.4 * random.normal();
    if (crush < 0.25) continue;
    const start = {
      x,
      y,
      heading: 0.5 * Math.atan2(fractalAt(wayY, x, y), fractalAt(wayX, x, y)) + stray,
      length: Math.min(90, 17 * Math.exp(0.6 * size)),
      depth: Math.min(1.1, 0.35 + 0.3 * crush),
      half: random.between(0.45, 1.1),
    };
    for (const crease of runCrease(start, CRUMPLE, marks.isTaken, random)) crumples.push(crease);
    marks.add(crumples);
  }
  return crumples;
}

/** Which cells of the box creases run through. */
function openMarks(box: Box) {
  const shape = fieldShape(box, NEAR);
  const marks = new Uint8Array(shape.width * shape.height);
  const cellOf = (x: number, y: number) =>
    cellIndex(shape, Math.floor(x / shape.mmPerCellX), Math.floor(y / shape.mmPerCellY));
  let count = 0;
  return {
    isTaken: (x: number, y: number) => marks[cellOf(x, y)] === 1,
    /** Marks the creases that were added to a list since the last call. */
    add(creases: readonly Crease[]) {
      for (; count < creases.length; count++) {
        const { xs, ys } = creases[count];
        for (let k = 0; k < xs.length; k++) marks[cellOf(xs[k], ys[k])] = 1;
      }
    },
  };
}
