import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { packageRoot } from '../host/code/root.ts';

/** The designs that come with a clone of the repository. */
export interface DemoDesigns {
  /** Their collection file. */
  readonly place: string;
  /** Where what is made of them goes. */
  readonly home: string;
}

const DRAW = join(packageRoot, 'dist/gallery/draw.js');
const COLLECTION = join(packageRoot, 'gallery/collection.json');
const DRAWN = join(packageRoot, 'out/collection');

/** Draws the demo designs where they are not drawn yet. @returns Nothing in an installed package, which has none. */
export async function demoDesigns(): Promise<DemoDesigns | undefined> {
  if (!existsSync(COLLECTION) || !existsSync(DRAW)) return undefined;
  if (!existsSync(join(DRAWN, 'artwork')))
    await promisify(execFile)(process.execPath, [DRAW], { cwd: packageRoot });
  return { place: COLLECTION, home: DRAWN };
}
