import { open } from 'node:fs/promises';
import { expect, it } from 'vitest';
import { fileReader } from './file-access.ts';
import { readPicture } from './index.ts';
import { filer, testFolder } from './testing/folder.ts';
import { tiffFile } from './testing/tiff-file.ts';
import { appendEntry, type Directory, firstDirectory } from './tiff.ts';

const file = filer(testFolder());

// TIFF 6.0, section 2: entries stand in ascending order of their tags.
it.each([false, true])('appends an entry where its tag belongs (big-endian: %s)', async (bigEndian) => {
  const strip = Buffer.from([1, 2, 3]);
  const path = file(
    tiffFile({ width: 1, height: 1, bits: [8, 8, 8], photometric: 2, strip, bigEndian }),
    '.tif',
  );
  const handle = await open(path, 'r+');
  const read = fileReader(handle);
  const before = (await firstDirectory(read)) as Directory;
  const data = Buffer.from('an odd number');
  await appendEntry(handle, before, 270, data);
  const after = (await firstDirectory(read)) as Directory;
  await handle.close();
  const tags = before.entries.map(({ tag }) => tag);
  expect(after.entries.map(({ tag }) => tag)).toEqual([...tags, 270].sort((first, second) => first - second));
  expect((await readPicture(path)).pixels).toEqual(Uint8Array.from([1, 2, 3, 255]));
});

it('is not put off by a directory that leads nowhere', async () => {
  const cut = Buffer.from('II*\0\xff\xff\xff\x7f', 'latin1');
  const read = async (offset: number, length: number) => cut.subarray(offset, offset + length);
  expect(await firstDirectory(read)).toBeUndefined();
});
