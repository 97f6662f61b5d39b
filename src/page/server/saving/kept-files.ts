import { createHash } from 'node:crypto';
import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { pathFrom } from '../../../host/files/path-from.ts';
import { writePicture } from '../../../picture/index.ts';
import { plainFrame } from '../../../render/frame.ts';
import type { Grid } from '../../../repeat/grid.ts';
import type { Laying, Work } from '../../words/work.ts';
import type { Desk } from '../desk.ts';
import { paintedResist, requireResist } from '../looks/painted-resist.ts';
import { withOpenedPaths } from '../opened/opened-pictures.ts';
import { fileWord } from './file-name.ts';
import { resistPicture } from './resist-picture.ts';
import { openedId, picturesOf, resistName, summaryOf, writtenRecipe } from './written-recipe.ts';

/**
 * Files that a command names and that the person did not ask for: they stand in the session's folder under
 * names made of what they hold, so that a command that was copied makes the same as long as they are there.
 */
export class KeptFiles {
  readonly #desk: Pick<Desk, 'shelf' | 'folder' | 'artworks'>;

  constructor(desk: Pick<Desk, 'shelf' | 'folder' | 'artworks'>) {
    this.#desk = desk;
  }

  /** The laying as a recipe with its resists on the pixels of a grid. @returns Its path. */
  async recipe(laying: Laying, { resists }: Pick<Work, 'resists'>, grid: Grid): Promise<string> {
    const { folder, artworks } = this.#desk;
    const paths = new Map<string, string>();
    for (const picture of picturesOf(laying)) {
      const name = resistName(picture);
      const path =
        name === undefined
          ? artworks.pathOf(openedId(picture))
          : await this.#resist(name, paintedResist(requireResist(resists, name), grid), grid);
      paths.set(picture, path);
    }
    const placed = withOpenedPaths(this.#desk, laying, (path) => pathFrom(folder.recipes, path));
    const recipe = writtenRecipe(placed, summaryOf(laying), folder.recipes, (picture) => paths.get(picture)!);
    const text = `${JSON.stringify(recipe, null, 2)}\n`;
    const path = join(folder.recipes, `${digestOf(text)}.json`);
    if (!(await isThere(path))) await folder.write(path, text);
    return path;
  }

  /** A tile of one colour to lay over. @returns Its path. */
  async ground(colour: string, grid: Grid): Promise<string> {
    const { tileWidth, tileHeight } = grid;
    const name = `ground-${colour.slice(1).toLowerCase()}-${tileWidth}x${tileHeight}.png`;
    const path = join(this.#desk.folder.recipes, name);
    if (!(await isThere(path))) {
      const pixelsPerMm = { x: 1 / grid.mmPerPixelX, y: 1 / grid.mmPerPixelY };
      await writePicture(
        path,
        { ...plainFrame(tileWidth, tileHeight, colour), pixelsPerMm },
        { overwrite: true },
      );
    }
    return path;
  }

  async #resist(name: string, samples: Uint8Array, grid: Grid): Promise<string> {
    const shape = `${grid.tileWidth} ${grid.tileHeight} ${grid.mmPerPixelX} ${grid.mmPerPixelY}`;
    const path = join(this.#desk.folder.recipes, `${fileWord(name)}-${digestOf(shape, samples)}.png`);
    if (!(await isThere(path))) await writePicture(path, resistPicture(samples, grid), { overwrite: true });
    return path;
  }
}

function digestOf(...parts: readonly (string | Uint8Array)[]): string {
  const digest = createHash('sha256');
  for (const part of parts) digest.update(part);
  return digest.digest('hex').slice(0, 16);
}

function isThere(path: string): Promise<boolean> {
  return stat(path).then(
    () => true,
    () => false,
  );
}
