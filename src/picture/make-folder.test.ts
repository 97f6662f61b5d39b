import { existsSync, mkdirSync, mkdtempSync, readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { writeBeside } from './beside.ts';
import { refuseOverwrite } from './index.ts';
import { makeFolder, removeFolders } from './make-folder.ts';
import { testFolder } from './testing/folder.ts';

const root = testFolder();
let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(root, 'case-'));
});

const refused = (received: string | RegExp) => ({
  name: 'Fault',
  kind: 'output',
  received: typeof received === 'string' ? received : expect.stringMatching(received),
});

describe('a folder', () => {
  it('is made with those above it, and told which; another is not asked for', async () => {
    const [one, two] = [join(folder, 'one'), join(folder, 'one/two')];
    expect(await makeFolder(two)).toEqual([one, two]);
    expect(await makeFolder(two)).toEqual([]);
    await removeFolders([one, two]);
    expect(readdirSync(folder)).toEqual([]);
  });

  it('may be reached by a link, but not by one that leads nowhere', async () => {
    mkdirSync(join(folder, 'real'));
    symlinkSync(join(folder, 'real'), join(folder, 'link'));
    await makeFolder(join(folder, 'link/in'));
    expect(existsSync(join(folder, 'real/in'))).toBe(true);
    symlinkSync(join(folder, 'nothing'), join(folder, 'dead'));
    await expect(makeFolder(join(folder, 'dead/in'))).rejects.toMatchObject(refused(/file in the place/));
  });

  it('is made by many at once', async () => {
    const deep = join(folder, 'a/b/c/d');
    const made = await Promise.all(Array.from({ length: 20 }, () => makeFolder(deep)));
    expect(made.flat().sort()).toEqual(['a', 'a/b', 'a/b/c', 'a/b/c/d'].map((name) => join(folder, name)));
  });

  it('that cannot be made leaves none', async () => {
    writeFileSync(join(folder, 'file'), 'mine');
    const long = join(folder, 'one/two', 'n'.repeat(300));
    await expect(makeFolder(long)).rejects.toMatchObject(refused('a name that is too long'));
    await expect(makeFolder(join(folder, 'file/in'))).rejects.toMatchObject(refused(/file in the place/));
    await expect(makeFolder(join(folder, 'a\0b'))).rejects.toMatchObject(refused(/no file can have/));
    expect(readdirSync(folder)).toEqual(['file']);
  });

  it('under a system that takes none is refused at once', async (context) => {
    if (!existsSync('/proc/version')) return context.skip();
    for (const place of ['/proc/xx', '/proc/xx/yy']) {
      await expect(makeFolder(place)).rejects.toMatchObject(refused('a place that takes no folders'));
      await expect(refuseOverwrite(join(place, 'a.png'))).rejects.toMatchObject({ kind: 'output' });
      await expect(writeBeside(join(place, 'a.png'), {}, async () => {})).rejects.toMatchObject({
        kind: 'output',
      });
    }
    await expect(refuseOverwrite('/proc/a.png')).rejects.toMatchObject({ kind: 'output' });
  });
});

it('looking whether a picture can be written leaves nothing', async () => {
  await refuseOverwrite(join(folder, 'new/deeper/a.png'));
  expect(readdirSync(folder)).toEqual([]);
});
