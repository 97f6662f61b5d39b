import {
  API_VERSION,
  type Band,
  type Box,
  defineEffect,
  homeParts,
  type Lattice,
  numeric,
  type Setting,
  type TextureLayer,
} from 'tenter';

/** Waves that close over the lattice they were made for. Plain data. */
export interface Ripple {
  readonly lattice: Lattice;
  readonly height: number;
  readonly depth: number;
  /** Per wave: whole turns along either lattice vector, and the phase in turns. */
  readonly waves: readonly (readonly [across: number, down: number, phase: number])[];
}

export const PARAMETERS = {
  height: numeric({ unit: 'ratio', min: 0, max: 1, default: 0.5, help: 'How light and dark the waves are.' }),
  depth: numeric({ unit: 'ratio', min: 0, max: 0.4, default: 0.2, help: 'How far the ground is darkened.' }),
  waves: numeric({ unit: 'count', min: 1, max: 9, default: 3, whole: true, help: 'How many waves.' }),
};

export type RippleSetting = Setting<typeof PARAMETERS>;

/** The sound effect that every broken one on this shelf is a variation of. */
export const ripple = defineEffect({
  apiVersion: API_VERSION,
  name: 'ripple',
  version: '1.0.0',
  summary: 'Crossing waves that close over any box.',
  parameters: PARAMETERS,
  planes: ['shade'],
  prepare: prepareRipple,
  paint: paintRipple,
});

export function prepareRipple({ parameters, box, random, progress }: RippleSetting): Ripple {
  const stream = random('waves');
  const waves: [number, number, number][] = [];
  for (let k = 0; k < parameters.waves; k++) {
    waves.push([
      turnsFor(box.width, stream.between(-1, 1)),
      turnsFor(box.height, stream.between(-1, 1)),
      stream.next(),
    ]);
    progress((k + 1) / parameters.waves);
  }
  return { lattice: box.lattice, height: parameters.height, depth: parameters.depth, waves };
}

/** Waves of 6 mm and longer, at whatever size of box. */
export function turnsFor(length: number, share: number): number {
  return Math.round((length / 6) * share);
}

export function paintRipple(model: Ripple, band: Band, layer: TextureLayer<'shade'>): void {
  for (const { x, y, width, height, at } of homeParts(band, model.lattice)) {
    for (let j = 0; j < height; j++) {
      for (let i = 0; i < width; i++) {
        const [mmX, mmY] = [(x + i + 0.5) * band.mmPerPixelX, (y + j + 0.5) * band.mmPerPixelY];
        layer.shade[at + j * band.width + i] = shadeAt(model, mmX, mmY, band);
      }
    }
  }
}

/** The mean over a pixel: a wave averaged over a length shrinks as the sine over its argument does. */
export function shadeAt({ lattice, waves, height, depth }: Ripple, x: number, y: number, band: Band): number {
  const { ax, ay, bx, by } = lattice;
  const area = ax * by - ay * bx;
  let sum = 0;
  for (const [across, down, phase] of waves) {
    const turnsX = (across * by - down * ay) / area;
    const turnsY = (down * ax - across * bx) / area;
    const seen = meanOfTurn(turnsX * band.mmPerPixelX) * meanOfTurn(turnsY * band.mmPerPixelY);
    sum += seen * Math.cos(2 * Math.PI * (turnsX * x + turnsY * y + phase));
  }
  return 1 - depth + (height * sum) / (2 * waves.length);
}

function meanOfTurn(turns: number): number {
  return turns === 0 ? 1 : Math.sin(Math.PI * turns) / (Math.PI * turns);
}

/** The waves as ink that lies thicker and thinner: its colour straight, with the alpha beside it. */
export function paintInk(
  model: Ripple,
  band: Band,
  { tint }: { tint: Float32Array },
  ink: readonly number[],
): void {
  const { width, height } = band;
  const shade = new Float32Array(width * height);
  paintRipple(model, band, { width, height, shade });
  for (let k = 0; k < shade.length; k++) {
    tint.set(ink, 4 * k);
    tint[4 * k + 3] = Math.min(1, Math.max(0, shade[k] - 0.3));
  }
}

/** Waves over another lattice than the box's. */
export function overLattice(model: Ripple, lattice: Lattice): Ripple {
  return { ...model, lattice };
}

/** The lattice of a box as if it stood straight. */
export function straightLattice({ width, height }: Box): Lattice {
  return { ax: width, ay: 0, bx: 0, by: height };
}

export default ripple;
