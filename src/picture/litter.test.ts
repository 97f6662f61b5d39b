import { spawnSync } from 'node:child_process';
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { beforeEach, expect, it } from 'vitest';
import { writeBeside } from './beside.ts';
import { fillFolderBeside } from './folder-beside.ts';
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

it('unfinished folders of dead processes go with the next folder filled beside them, and nothing else', async () => {
  for (const mark of [...DEAD, ...LIVING]) mkdirSync(join(folder, `.tenter-${mark}-${UUID}.part`));
  const kept = LIVING.map((mark) => `.tenter-${mark}-${UUID}.part`);
  const isOurs = async () => false;
  await fillFolderBeside(join(folder, 'plates'), { isOurs }, (beside) =>
    writeFile(join(beside, 'a.txt'), 'whole'),
  );
  expect(readdirSync(folder).sort()).toEqual([...kept, 'plates'].sort());
});

it('what nobody can be asked about goes once it was left alone for more than a day', async () => {
  const other = '0'.repeat(16);
  const forms = (word: string) => [
    `.tenter-${UUID.replace('0b0e', word)}.part`,
    `.tenter-${other}-${pid}-1-${UUID.replace('0b0e', word)}.part`,
  ];
  const at = (name: string, hours: number) => {
    const time = new Date(Date.now() - hours * 3_600_000);
    utimesSync(join(folder, name), time, time);
  };
  const [old, young, mine] = [
    forms('0001'),
    forms('0002'),
    ['.tenter-mine.part', `.tenter-${UUID}.part.txt`],
  ];
  for (const name of [...old, ...young, ...mine]) writeFileSync(join(folder, name), 'half');
  for (const name of [...old, ...mine]) at(name, 25);
  for (const name of young) at(name, 23);
  mkdirSync(join(folder, forms('0003')[0]));
  at(forms('0003')[0], 25);
  await sweepParts(folder);
  expect(readdirSync(folder).sort()).toEqual([...young, ...mine, forms('0003')[0]].sort());
});

it('what a living process writes stays however old', async () => {
  const path = join(folder, partName());
  writeFileSync(path, 'half');
  utimesSync(path, new Date(1e12), new Date(1e12));
  await sweepParts(folder);
  expect(readFileSync(path, 'utf8')).toBe('half');
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
