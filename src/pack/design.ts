import { basename, extname } from 'node:path';
import type { Inputs, Item } from '../collection/index.ts';
import { designInputs } from '../collection/index.ts';
import type { Light } from '../composite/light.ts';
import { Fault } from '../fault.ts';
import type { InksInForce } from '../host/ink/inks-in-force.ts';
import type { Screens } from '../host/ink/screens.ts';
import type { Shelf } from '../host/plugins/shelf.ts';
import { squareDensity, uprightSize } from '../picture/decode.ts';
import { readHeader } from '../picture/header.ts';
import { readSteadily } from '../picture/index.ts';
import type { Follow } from '../render/follow.ts';
import type { RenderStep } from '../render/step.ts';
import { gridOfTile, sizeOfTile } from '../render/tile-grid.ts';
import type { Grid } from '../repeat/grid.ts';
import type { Layout } from '../repeat/layout.ts';
import { requireSize, type Size } from '../repeat/length.ts';

/** A design that goes into a parcel: an artwork tile, and what is laid over it. */
export interface Design {
  readonly name: string;
  readonly tile: { readonly path: string; readonly sha256: string; readonly width: number };
  readonly grid: Grid;
  /** None for artwork as it is, or a render that is packed as a picture. */
  readonly steps: readonly RenderStep[];
  readonly follow: Follow;
  readonly light?: Light;
  /** The card of the tile, and the colourway that it is recoloured to. */
  readonly inks?: InksInForce;
  /** That the print is made of counted inks, and how. */
  readonly screens?: Screens;
  /** All that decides its pixels. */
  readonly inputs: Inputs;
}

/** What a person says of a tile. */
export interface DesignWish {
  readonly layout: Layout;
  readonly size?: Size;
  /** Pixels per mm of the tile. */
  readonly density?: number;
  /** Pixels per mm of the print. */
  readonly at?: number;
  readonly fit?: boolean;
  readonly steps: readonly RenderStep[];
  /** What the steps are called, for the design's name; nothing where there are none. */
  readonly target?: string;
  readonly follow?: Follow;
  readonly light?: Light;
  readonly inks?: InksInForce;
  readonly screens?: Screens;
}

/** Looks a tile up, without decoding it. @throws Fault (input, usage). */
export async function designOfTile(path: string, wish: DesignWish, shelf: Shelf): Promise<Design> {
  const { result: header, sha256 } = await readSteadily(path, () => readHeader(path));
  const { width, height } = uprightSize(header);
  const fileDensity = squareDensity(header);
  const sized = sizeOfTile({ width, height }, { ...wish, fileDensity }) ?? missingSize(path);
  requireSize(sized.size, `the size of ${path}`, 'Give it with --size.');
  const { layout, fit, at, steps, target, follow = 'cloth', light, inks, screens } = wish;
  const grid = gridOfTile({ layout, width, height, size: sized.size, fit }, at);
  const tile = { path, sha256, width, height };
  const inputs = await designInputs({ tile, grid, steps, follow, light, inks, screens }, shelf);
  const name = [path, target]
    .filter((word) => word !== undefined)
    .map((word) => basename(word, extname(word)));
  return { name: fileWord(name.join('-')), tile, grid, steps, follow, light, inks, screens, inputs };
}

/** A render of a collection as a design. */
export function designOfItem(item: Item): Design {
  const { tile, grid, steps, follow, light, inks, screens, inputs, name, format } = item;
  return {
    name: fileWord(name.slice(0, -format.length - 1)),
    ...{ tile, grid, steps, follow, light, inks, screens, inputs },
  };
}

/** Names go into file names everywhere, and into one line of a sheet. */
const LONGEST_NAME = 120;

function fileWord(word: string): string {
  return word
    .normalize('NFC')
    .replaceAll(/[^\p{L}\p{N}._-]+(\.+[^\p{L}\p{N}._-]+)*/gu, '-')
    .replace(/^[.-]+/, '')
    .slice(0, LONGEST_NAME);
}

function missingSize(path: string): never {
  throw new Fault({
    kind: 'usage',
    expected: 'the size of the repeat',
    subject: path,
    received: 'nothing, and the tile states no density',
    remedy: 'Add for example --size 640x640mm or --dpi 300.',
  });
}
