import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writePicture } from './write.ts';

const PAGE = 4096;
const DISK_PAGES = 16;
let folder: string;
let disk: string;
let isMounted = false;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-full-'));
  disk = join(folder, 'disk');
  mkdirSync(disk);
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${DISK_PAGES * PAGE}`, 'tmpfs', disk], {
      stdio: 'ignore',
    });
    isMounted = true;
  } catch {
    isMounted = false;
  }
});
afterAll(() => {
  if (isMounted) execFileSync('umount', [disk]);
  rmSync(folder, { recursive: true, force: true });
});

/** Noise that no encoder makes shorter: the minimal standard generator of Park and Miller (1988). */
function noise(height: number): Uint8Array {
  let state = 1;
  return new Uint8Array(40 * height * 4).map((_, index) => {
    state = (state * 16807) % 2147483647;
    return index % 4 === 3 ? 255 : state >> 8;
  });
}

describe('a disk that fills up', () => {
  it.each(['png', 'tif'])(
    'takes a whole %s or none of it, wherever its end falls',
    async (ending, ...rest) => {
      const context = rest.at(-1) as { skip?(note: string): void } | undefined;
      if (!isMounted) {
        context?.skip?.('mounting a small disk needs rights that this user has not got');
        return;
      }
      const outcomes = { whole: 0, refused: 0 };
      for (let height = 28; height <= 104; height += 1) {
        const picture = { pixels: noise(height), width: 40, height, pixelsPerMm: 5 };
        const whole = join(folder, `whole.${ending}`);
        await writePicture(whole, picture, { overwrite: true });
        const bytes = readFileSync(whole);
        const pages = Math.floor(bytes.length / PAGE);
        writeFileSync(join(disk, 'ballast'), new Uint8Array((DISK_PAGES - pages) * PAGE));
        const target = join(disk, `small.${ending}`);
        const written = await writePicture(target, picture).then(
          () => true,
          (fault) => {
            expect(fault.received).toBe('a disk that is full');
            return false;
          },
        );
        if (written) expect(readFileSync(target).equals(bytes), `${height} rows`).toBe(true);
        else expect(readdirSync(disk)).toEqual(['ballast']);
        outcomes[written ? 'whole' : 'refused']++;
        rmSync(join(disk, 'ballast'));
        rmSync(target, { force: true });
      }
      expect(outcomes.refused).toBeGreaterThan(60);
    },
  );
});
