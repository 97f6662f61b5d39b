import { createHash } from 'node:crypto';
import { realpath } from 'node:fs/promises';
import { basename, extname, resolve } from 'node:path';
import { squareDensity, uprightSize } from '../../../picture/decode.ts';
import { readHeader } from '../../../picture/header.ts';
import { doubtSize } from '../../../render/doubt-size.ts';
import { sizeOfTile } from '../../../render/tile-grid.ts';
import type { Size } from '../../../repeat/length.ts';
import type { OpenedTile } from '../../words/begin.ts';

/** What a person said of an artwork when it was opened. */
export interface ArtworkWishes {
  /** Its name as the person knows it; that of the file where absent. */
  readonly name?: string;
  /** As `parseLayout` reads it. */
  readonly layout?: string;
  /** mm of one tile. */
  readonly size?: Size;
  /** Pixels per mm. */
  readonly density?: number;
  /** What the person should know of it besides what its file says. */
  readonly notes?: readonly string[];
}

/** The same file has the same id, whatever it is called by and whenever it is opened. */
export async function idOfFile(path: string): Promise<string> {
  const real = await realpath(path).catch(() => resolve(path));
  return createHash('sha256').update(real).digest('hex').slice(0, 16);
}

/**
 * What the header of a picture tells; its colours are found once it is read whole.
 *
 * @throws Fault (input) as `readHeader` does; Fault (usage) where what was said of its size disagrees.
 */
export async function readFacts(id: string, path: string, wishes: ArtworkWishes = {}): Promise<OpenedTile> {
  const header = await readHeader(path);
  const { width, height } = uprightSize(header);
  const fileDensity = squareDensity(header);
  const sized = sizeOfTile({ width, height }, { size: wishes.size, density: wishes.density, fileDensity });
  const doubt = sized && doubtSize(sized, width);
  return {
    ...{ id, revision: 0, width, height, layout: wishes.layout },
    name: wishes.name ?? basename(path, extname(path)),
    size: sized?.size,
    colours: [],
    notes: [...(wishes.notes ?? []), ...header.notes, ...(doubt === undefined ? [] : [doubt])],
  };
}
