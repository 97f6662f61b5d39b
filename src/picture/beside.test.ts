import { execFileSync } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  statfsSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { claimAndRename, writeAllBeside, writeBeside } from './beside.ts';
import { readPicture, refuseOverwrite, sharedSamples, type WritablePicture, writePicture } from './index.ts';
import { socketIn, testFolder } from './testing/folder.ts';
import { withoutRoot } from './testing/identity.ts';

const root = testFolder();
let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(root, 'case-'));
  chmodSync(folder, 0o755);
});

/** Noise, so that it takes room on a disk. */
function noise(side: number): WritablePicture {
  const pixels = sharedSamples(side * side * 4, 8);
  for (let at = 0, seed = 1; at < pixels.length; at++) {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    pixels[at] = seed >>> 24;
  }
  return { pixels, width: side, height: side, pixelsPerMm: 10 };
}

const output = (received: string | RegExp) => ({
  name: 'Fault',
  kind: 'output',
  received: typeof received === 'string' ? received : expect.stringMatching(received),
});

describe('a name that is taken', () => {
  it('is refused, and what was there stays', async () => {
    const path = join(folder, 'a.png');
    writeFileSync(path, 'mine');
    await expect(writePicture(path, noise(4))).rejects.toMatchObject(output('a file of that name'));
    await expect(refuseOverwrite(path)).rejects.toMatchObject(output('a file of that name'));
    expect(readFileSync(path, 'utf8')).toBe('mine');
    expect(readdirSync(folder)).toEqual(['a.png']);
  });

  it('is replaced where that is asked', async () => {
    const path = join(folder, 'a.png');
    writeFileSync(path, 'mine');
    await refuseOverwrite(path, true);
    const picture = noise(4);
    await writePicture(path, picture, { overwrite: true });
    expect((await readPicture(path)).pixels).toEqual(picture.pixels);
    expect(readdirSync(folder)).toEqual(['a.png']);
  });

  it('is refused also where it was taken in the meantime', async () => {
    const path = join(folder, 'a.png');
    const writing = writeBeside(path, {}, async (beside) => {
      await writeFile(beside, 'ours');
      await writeFile(path, 'theirs');
    });
    const refused = { ...output('a file of that name'), expected: 'a name that is free' };
    await expect(writing).rejects.toMatchObject(refused);
    expect(readFileSync(path, 'utf8')).toBe('theirs');
    expect(readdirSync(folder)).toEqual(['a.png']);
  });

  it('is refused also where there are no hard links', async () => {
    const [beside, free, taken] = ['beside', 'free', 'taken'].map((name) => join(folder, name));
    writeFileSync(beside, 'ours');
    writeFileSync(taken, 'theirs');
    await expect(claimAndRename(beside, taken)).rejects.toMatchObject(output('a file of that name'));
    expect(readFileSync(taken, 'utf8')).toBe('theirs');
    await claimAndRename(beside, free);
    expect(readFileSync(free, 'utf8')).toBe('ours');
    await expect(claimAndRename(beside, join(folder, 'other'))).rejects.toMatchObject({ code: 'ENOENT' });
    expect(readdirSync(folder).sort()).toEqual(['free', 'taken']);
  });

  it('by a folder or a socket is refused whatever is asked', async () => {
    const path = join(folder, 'a.png');
    mkdirSync(path);
    await expect(writePicture(path, noise(4), { overwrite: true })).rejects.toMatchObject(
      output(/folder of that name/),
    );
    const socket = await socketIn(folder, 'socket.png');
    await expect(writePicture(socket, noise(4), { overwrite: true })).rejects.toMatchObject(
      output(/no file/),
    );
    expect(lstatSync(socket).isSocket()).toBe(true);
  });

  it('by a link is refused, or the link kept and its file replaced', async () => {
    const [link, real] = ['link.png', 'real.png'].map((name) => join(folder, name));
    symlinkSync(real, link);
    await expect(writePicture(link, noise(4))).rejects.toMatchObject(output('a file of that name'));
    writeFileSync(real, 'old');
    await writePicture(link, noise(4), { overwrite: true });
    expect(lstatSync(link).isSymbolicLink()).toBe(true);
    expect((await readPicture(real)).width).toBe(4);
  });
});

describe('folders on the way', () => {
  it('are made', async () => {
    const path = join(folder, 'one', 'two', 'a.tif');
    await writePicture(path, noise(4));
    expect((await readPicture(path)).width).toBe(4);
  });

  it('go again where nothing comes of it, but not what others put there', async () => {
    const fail = (path: string, meanwhile?: string) =>
      writeBeside(path, {}, async () => {
        if (meanwhile) await writeFile(meanwhile, 'theirs');
        throw new Error('broken');
      });
    await expect(fail(join(folder, 'one', 'two', 'a.png'))).rejects.toMatchObject(output('broken'));
    expect(readdirSync(folder)).toEqual([]);
    await expect(fail(join(folder, 'one', 'two', 'a.png'), join(folder, 'one', 'b'))).rejects.toThrow();
    expect(readdirSync(join(folder, 'one'))).toEqual(['b']);
  });

  it('that are files are refused', async () => {
    writeFileSync(join(folder, 'file'), 'mine');
    for (const path of [join(folder, 'file', 'a.png'), join(folder, 'file', 'deeper', 'a.png')]) {
      await expect(writePicture(path, noise(4))).rejects.toMatchObject(output(/a file/));
    }
    expect(readFileSync(join(folder, 'file'), 'utf8')).toBe('mine');
  });

  it('that may not be written are refused with their reason', async (context) => {
    chmodSync(folder, 0o555);
    const ran = await withoutRoot(async () => {
      await expect(writePicture(join(folder, 'a.png'), noise(4))).rejects.toMatchObject(
        output('no permission'),
      );
      await expect(writePicture(join(folder, 'sub', 'a.png'), noise(4))).rejects.toMatchObject(
        output('no permission'),
      );
    });
    expect(readdirSync(folder)).toEqual([]);
    if (!ran) context.skip();
  });

  it('of a system that takes no files are refused', async (context) => {
    if (!existsSync('/proc/version')) context.skip();
    await expect(writePicture('/proc/a.png', noise(4))).rejects.toMatchObject({ kind: 'output' });
    const path = join(folder, `${'n'.repeat(252)}.png`);
    await expect(writePicture(path, noise(4))).rejects.toMatchObject(output('a name that is too long'));
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe('a request to stop', () => {
  it.each(['a.png', 'a.tif'])('before or while %s is written leaves nothing', async (name) => {
    const path = join(folder, 'new', name);
    const early = AbortSignal.abort();
    await expect(writePicture(path, noise(64), { signal: early })).rejects.toMatchObject({
      kind: 'cancelled',
    });
    const late = new AbortController();
    const writing = writePicture(path, noise(400), { signal: late.signal });
    late.abort();
    await expect(writing).rejects.toMatchObject({ kind: 'cancelled', subject: path });
    expect(readdirSync(folder)).toEqual([]);
  });

  it('that came before saves the work', async () => {
    const fill = vi.fn(async () => {});
    const writing = writeBeside(join(folder, 'a.png'), { signal: AbortSignal.abort() }, fill);
    await expect(writing).rejects.toMatchObject({ kind: 'cancelled' });
    expect(fill).not.toHaveBeenCalled();
  });

  it('keeps what was there', async () => {
    const path = join(folder, 'a.png');
    writeFileSync(path, 'mine');
    const late = new AbortController();
    const writing = writePicture(path, noise(64), { signal: late.signal, overwrite: true });
    late.abort();
    await expect(writing).rejects.toMatchObject({ kind: 'cancelled' });
    expect(readFileSync(path, 'utf8')).toBe('mine');
  });
});

describe('a disk that is full', () => {
  let mounted: string | undefined;
  afterEach(() => {
    if (mounted) execFileSync('umount', [mounted]);
    mounted = undefined;
  });

  function smallDisk(): string | undefined {
    const place = mkdtempSync(join(root, 'disk-'));
    try {
      execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=256k', 'tmpfs', place], { stdio: 'ignore' });
      mounted = place;
    } catch {
      // Only root may mount, and not everywhere.
    }
    return mounted;
  }

  it('is told, wherever it fills up, and nothing is left', async (context) => {
    const disk = smallDisk();
    if (!disk) return context.skip();
    const picture = noise(120);
    const room = () => Number(statfsSync(disk).bfree) * Number(statfsSync(disk).bsize);
    for (const name of ['a.png', 'a.tif']) {
      const { bytes } = await writePicture(join(folder, name), picture);
      expect(bytes).toBeGreaterThan(20_000);
      for (const missing of [4096, 8192, 16_384, Math.floor(bytes / 2), bytes]) {
        const filler = join(disk, 'filler');
        const leave = Math.max(0, Math.floor(bytes / 4096) * 4096 - missing);
        writeFileSync(filler, Buffer.alloc(room() - leave));
        const writing = writePicture(join(disk, name), picture);
        await expect(writing).rejects.toMatchObject(output('a disk that is full'));
        expect(readdirSync(disk)).toEqual(['filler']);
        execFileSync('rm', [filler]);
      }
      await writePicture(join(disk, name), picture);
      expect((await readPicture(join(disk, name))).pixels).toEqual(picture.pixels);
      execFileSync('rm', [join(disk, name)]);
    }
  });
});

describe('writeAllBeside', () => {
  it.each(['while they are filled', 'as the last one gets its name'])(
    'leaves none where one fails %s',
    async (when) => {
      const paths = ['first.png', 'second.png'].map((name) => join(folder, name));
      const files = paths.map((path, index) => ({
        path,
        fill: async (beside: string) => {
          await writeFile(beside, 'whole');
          if (index === 0) return;
          if (when.startsWith('while')) throw new Error('no more');
          await writeFile(path, 'taken in the meantime');
        },
      }));
      await expect(writeAllBeside(files, {})).rejects.toMatchObject({ kind: 'output' });
      expect(readdirSync(folder)).toEqual(when.startsWith('while') ? [] : ['second.png']);
    },
  );
});
