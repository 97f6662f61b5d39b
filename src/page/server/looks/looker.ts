import type { Frame } from '../../../colour/frame.ts';
import type { Light } from '../../../composite/light.ts';
import type { Quality, Report } from '../../../effect/effect.ts';
import { cancelled } from '../../../effect/setting.ts';
import { Crew } from '../../../host/threads/crew.ts';
import type { Limits } from '../../../host/threads/limits.ts';
import type { Follow } from '../../../render/follow.ts';
import { plainFrame, shareBlank, unfoldFrame, unfoldGrid } from '../../../render/frame.ts';
import { renderTile } from '../../../render/render.ts';
import { resampleTile } from '../../../render/resample.ts';
import type { RenderStep } from '../../../render/step.ts';
import { fitGrid, type Grid } from '../../../repeat/grid.ts';
import { unfoldedLayout } from '../../../repeat/lattice.ts';
import type { Layout } from '../../../repeat/layout.ts';
import type { Size } from '../../../repeat/length.ts';
import type { Part } from '../../words/look.ts';

/** What is to be seen. */
export interface Sighting {
  /** None for a texture alone. */
  readonly artwork?: Frame;
  readonly ground: string;
  readonly layout: Layout;
  readonly size: Size;
  readonly steps: readonly RenderStep[];
  /** The samples of each step's mask picture on a grid. */
  readonly masks: (grid: Grid) => Promise<readonly (Uint8Array | undefined)[]>;
  readonly follow: Follow;
  readonly light?: Light;
  readonly quality: Quality;
  /** Pixels per mm. */
  readonly density: number;
  readonly part?: Part;
}

/** What is seen. */
export interface Seen {
  /** 8 bit. */
  readonly frame: Frame;
  /** mm */
  readonly part: Part;
  /** Straight, drop or brick. */
  readonly layout: Layout;
  readonly isCoarse: boolean;
  readonly reports: readonly (readonly Report[])[];
  readonly laidOn: readonly (number | undefined)[];
  readonly timings: { readonly prepare: number; readonly paint: number };
}

/** Pixels of one look: a period as a large screen shows it. */
const MOST_PIXELS = 4e6;

/** Renders what the page looks at: for now a whole period, as fine as that allows. */
export class Looker {
  readonly #crew: Crew;

  constructor(limits: Partial<Limits> = {}, workers?: number) {
    this.#crew = new Crew(workers, limits);
  }

  /** @throws Fault of kind `effect`, `usage`, `input` or `cancelled`; the latter at once where `signal` asks. */
  async look(sighting: Sighting, signal: AbortSignal): Promise<Seen> {
    if (signal.aborted) throw cancelled();
    const { layout, size, steps, follow, light, quality, density } = sighting;
    const grid = gridFor({ layout, ...size }, density);
    const tile = tileFor(sighting, grid);
    const masks = await sighting.masks(grid);
    const task = this.#crew.begin();
    const stop = () => task.cancel();
    signal.addEventListener('abort', stop, { once: true });
    if (signal.aborted) stop();
    try {
      const { frame, ...rest } = await renderTile(
        { grid, tile, steps, follow, light, quality },
        { crew: task, masks },
      );
      return { ...seenOf(frame, rest.grid, grid), ...rest };
    } finally {
      signal.removeEventListener('abort', stop);
      task.end();
    }
  }

  close(): Promise<void> {
    return this.#crew.close();
  }
}

function gridFor(repeat: Size & { readonly layout: Layout }, density: number): Grid {
  const { box } = fitGrid(repeat, 1);
  return fitGrid(repeat, Math.min(density, Math.sqrt(MOST_PIXELS / (box.width * box.height))));
}

/** The artwork on the grid, in memory that a render may work in. */
function tileFor({ artwork, ground }: Sighting, grid: Grid): Frame {
  if (!artwork) return plainFrame(grid.tileWidth, grid.tileHeight, ground);
  const tile = resampleTile(artwork, grid);
  if (tile !== artwork) return tile;
  const pixels = shareBlank(artwork.pixels);
  pixels.set(artwork.pixels);
  return { ...artwork, pixels };
}

/** One tile where the texture followed a reflected artwork; the page is shown the unfolded box. */
function seenOf(frame: Frame, grid: Grid, asked: Grid): Pick<Seen, 'frame' | 'part' | 'layout' | 'isCoarse'> {
  const whole = unfoldFrame(frame, grid);
  const { box } = unfoldGrid(asked);
  return {
    frame: inBytes(whole),
    part: { left: 0, top: 0, width: box.width, height: box.height },
    layout: unfoldedLayout(asked.repeat.layout),
    isCoarse: true,
  };
}

function inBytes({ pixels, width, height }: Frame): Frame {
  if (pixels instanceof Uint8Array) return { pixels, width, height };
  const bytes = new Uint8Array(pixels.length);
  for (let k = 0; k < bytes.length; k++) bytes[k] = (pixels[k] + 128) / 257;
  return { pixels: bytes, width, height };
}
