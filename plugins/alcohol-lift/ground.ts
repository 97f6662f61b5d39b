import { addBilinearRow, type Box, layWash, type PeriodicField, type RandomStream, type Wash } from 'tenter';

/** Lays the wash that the spirit falls on, as a brush lays it, over one that is poured; answers that wash. */
export function brushGround(
  box: Box,
  { values, width, height, mmPerCellX, mmPerCellY }: PeriodicField,
  brushwork: number,
  tooth: number,
  open: (name: string) => RandomStream,
  isSketch: boolean,
): Wash {
  const wash = layWash(
    box,
    {
      ...{ brush: 72, stroke: 420, direction: -6, drying: 0.3, edges: 0.9, bead: 0.8, unevenness: 0.8 },
      ...{ grading: 0.25, backRuns: 0.35, skips: 0, granulation: 1, tooth: 0.5 + 0.6 * tooth },
    },
    (name) => open(`ground ${name}`),
    isSketch,
  );
  const row = new Float32Array(width);
  for (let j = 0; j < height; j++) {
    addBilinearRow(
      wash.paint,
      mmPerCellX / 2,
      mmPerCellX,
      (j + 0.5) * mmPerCellY,
      brushwork,
      row.fill(0),
      width,
    );
    for (let i = 0; i < width; i++) values[j * width + i] *= Math.max(0.05, 1 - brushwork + row[i]);
  }
  const heavy = wash.heavy.values.map((share) => Math.max(-0.8, Math.min(0.8, brushwork * share)));
  return { ...wash, heavy: { ...wash.heavy, values: heavy } };
}
