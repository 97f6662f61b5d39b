import { execFileSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { sha256OfFile } from '../../picture/file-hash.ts';
import { MACHINE } from '../../picture/process-mark.ts';
import { testFolder } from '../../picture/testing/folder.ts';
import { Claims } from './claims.ts';
import { forgetFailure, keepFailure, readFailure } from './failures.ts';
import { setAsideInside } from './inside.ts';
import { Owner } from './owner.ts';
import { readSidecar, standingOf } from './sidecar.ts';

const root = testFolder();
let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(root, 'case-'));
});

const ADDRESS = 'ab'.repeat(32);
const GONE = '0b0e3f1c-52f0-4dc1-9d5f-6a1f5f3f0a11';
const CLAIM = `.tenter/claims/${ADDRESS}`;
const FAILURE = `.tenter/failures/${ADDRESS}.json`;
const CARD = `.tenter/owners/${GONE}.json`;

/** What may come to lie where this program keeps something of its own: by accident, by a disk, by a prank. */
const BROKEN: readonly [string, (path: string) => void][] = [
  ['a pipe', (path) => execFileSync('mkfifo', [path])],
  ['a device', (path) => symlinkSync('/dev/zero', path)],
  ['a folder', (path) => mkdirSync(join(path, 'diary'), { recursive: true })],
  ['an empty file', (path) => writeFileSync(path, '')],
  ['a large file', (path) => writeFileSync(path, Buffer.alloc(20e6, 'a'))],
  ['bytes that are no text', (path) => writeFileSync(path, Buffer.from([0xff, 0xfe, 0xff]))],
  ['the JSON of something else', (path) => writeFileSync(path, 'null')],
];

function put(name: string, make: (path: string) => void): string {
  const path = join(folder, name);
  mkdirSync(dirname(path), { recursive: true });
  make(path);
  return path;
}

async function openOwner(): Promise<Owner> {
  const owner = new Owner(folder);
  await owner.open();
  return owner;
}

describe.each(BROKEN)('%s', (what, make) => {
  it('in the place of a claim keeps nobody from the item', async () => {
    const path = put(CLAIM, make);
    const owner = await openOwner();
    const claims = new Claims(folder, owner);
    const opening = claims.open().then(() => claims.ask({ address: ADDRESS }));
    if (what === 'a device') {
      await expect(opening).rejects.toMatchObject({
        kind: 'output',
        received: expect.stringContaining('a link'),
      });
      return owner.close();
    }
    const claim = await opening;
    expect(claim.kind).toBe('ours');
    expect(readFileSync(path, 'utf8')).toBe(owner.id);
    if (claim.kind === 'ours') await claim.release();
    expect(existsSync(path)).toBe(false);
    await owner.close();
  });

  it('in the place of an owner is nobody, once it is old', async () => {
    const path = put(CARD, make);
    if (what === 'a device') return;
    utimesSync(path, new Date(1e12), new Date(1e12));
    put(CLAIM, (claim) => writeFileSync(claim, GONE));
    const owner = await openOwner();
    expect(await owner.isGone(GONE)).toBe(true);
    await owner.clearGone();
    const claims = new Claims(folder, owner);
    await claims.open();
    expect((await claims.ask({ address: ADDRESS })).kind).toBe('ours');
    await owner.close();
  });

  it('in the place of a failure is none, and a new one is kept', async () => {
    put(FAILURE, make);
    const failure = {
      address: ADDRESS,
      name: 'a.png',
      kind: 'effect',
      reason: 'ink',
      command: '',
      attempts: 1,
    };
    expect(await readFailure(folder, failure)).toBeUndefined();
    if (what === 'a device') return;
    await forgetFailure(folder, failure);
    await keepFailure(folder, failure);
    expect(await readFailure(folder, failure)).toEqual(failure);
  });

  it('in the place of a record or of a picture is looked at, and no more', async () => {
    put('a.png', (path) => writeFileSync(path, 'picture'));
    put('a.png.json', make);
    expect(await readSidecar(join(folder, 'a.png'))).toBeUndefined();
    put('b.png', make);
    expect(['changed', 'strange', 'free']).toContain(
      (await standingOf(join(folder, 'b.png'), ADDRESS, true)).kind,
    );
    const isFile = /file|bytes|JSON/.test(what);
    if (!isFile) await expect(sha256OfFile(join(folder, 'b.png'))).rejects.toBeTruthy();
  });
});

describe('the card of an owner', () => {
  it.each([0, -1, 1.5, '1', null])('with the process %s tells nothing of one that runs', async (pid) => {
    const card = { id: GONE, machine: MACHINE, pid };
    const path = put(CARD, (at) => writeFileSync(at, JSON.stringify(card)));
    utimesSync(path, new Date(1e12), new Date(1e12));
    const owner = await openOwner();
    expect(await owner.isGone(GONE)).toBe(true);
    await owner.close();
  });
});

it('what is set aside replaces nothing', async () => {
  put('a.png', (path) => writeFileSync(path, 'one'));
  await setAsideInside(folder, 'a.png');
  const aside = 'a.changed-7692c3ad.png';
  writeFileSync(join(folder, aside), 'worked on');
  put('a.png', (path) => writeFileSync(path, 'one'));
  await setAsideInside(folder, 'a.png');
  expect(readFileSync(join(folder, aside), 'utf8')).toBe('worked on');
  expect(existsSync(join(folder, 'a.png'))).toBe(false);
});
