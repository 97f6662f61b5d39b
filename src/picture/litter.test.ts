import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { beforeEach, expect, it } from 'vitest';
import { writeBeside } from './beside.ts';
import { partName, sweepParts, sweepTemporary } from './litter.ts';
import { isMarkOfDead, MACHINE, processMark } from './process-mark.ts';
import { testFolder } from './testing/folder.ts';

const root = testFolder();
const UUID = '0b0e3f1c-52f0-4dc1-9d5f-6a1f5f3f0a11';
const { pid } = spawnSync(process.execPath, ['--version']);
/** Of a process of this machine that is gone, and of this number given to another. */
const DEAD = [`${MACHINE}-${pid}-1`, `${MACHINE}-${pid}-`, `${MACHINE}-${process.pid}-1`];
const LIVING = [processMark(), `${MACHINE}-${process.pid}-`, `${'0'.repeat(16)}-${pid}-1`, 'letters', ''];

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(root, 'case-'));
});

it('a process is dead where this machine knows that it is', () => {
  for (const mark of DEAD) expect(isMarkOfDead(mark), mark).toBe(true);
  for (const mark of LIVING) expect(isMarkOfDead(mark), mark).toBe(false);
});

it('unfinished files of dead processes go with the next file written beside them, and nothing else', async () => {
  for (const mark of [...DEAD, ...LIVING])
    writeFileSync(join(folder, `.tenter-${mark}-${UUID}.part`), 'half');
  writeFileSync(join(folder, `.tenter-${DEAD[0]}-${UUID}.part.txt`), 'mine');
  writeFileSync(join(folder, `.tenter-${DEAD[0]}-mine.part`), 'mine');
  mkdirSync(join(folder, `.tenter-${DEAD[0]}-${UUID.replace('0', '1')}.part`));
  symlinkSync('/etc', join(folder, `.tenter-${DEAD[0]}-${UUID.replace('0', '2')}.part`));
  const kept = readdirSync(folder).filter(
    (name) => !DEAD.some((mark) => name === `.tenter-${mark}-${UUID}.part`),
  );
  expect(kept).toHaveLength(LIVING.length + 4);
  await writeBeside(join(folder, 'a.txt'), {}, (beside) => writeFile(beside, 'whole'));
  expect(readdirSync(folder).sort()).toEqual([...kept, 'a.txt'].sort());
});

it('what this process writes is its own', async () => {
  const path = join(folder, partName());
  writeFileSync(path, 'half');
  await sweepParts(folder);
  expect(readFileSync(path, 'utf8')).toBe('half');
});

it('temporary folders of dead processes go, and nothing else', () => {
  for (const mark of [...DEAD, ...LIVING])
    mkdirSync(join(folder, `tenter-${mark}-abc123/in`), { recursive: true });
  writeFileSync(join(folder, `tenter-${DEAD[0]}-file00`), 'mine');
  symlinkSync(root, join(folder, `tenter-${DEAD[0]}-link00`));
  sweepTemporary(folder);
  const kept = [
    ...LIVING.map((mark) => `tenter-${mark}-abc123`),
    `tenter-${DEAD[0]}-file00`,
    `tenter-${DEAD[0]}-link00`,
  ];
  expect(readdirSync(folder).sort()).toEqual(kept.sort());
});
