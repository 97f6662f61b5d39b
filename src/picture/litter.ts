import { randomUUID } from 'node:crypto';
import { readdirSync, rmSync } from 'node:fs';
import { lstat, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isMarkOfDead, isMarkOfThisMachine, MARK, processMark } from './process-mark.ts';

const UNIQUE = '[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}';
const PART = new RegExp(`^\\.tenter-(${MARK})-${UNIQUE}\\.part$`);
/** What names were like before they told whose they are. */
const PART_WITHOUT_MARK = new RegExp(`^\\.tenter-${UNIQUE}\\.part$`);
/** A day. */
const LEFT_AFTER_MS = 24 * 3_600_000;
const TEMPORARY = new RegExp(`^tenter-(${MARK})-\\w{6}$`);

/** The name of a file that is being written; it tells whose it is, should that process be killed. */
export function partName(): string {
  return `.tenter-${processMark()}-${randomUUID()}.part`;
}

/** What the name of a temporary folder begins with; the system adds six letters. */
export function temporaryPrefix(): string {
  return join(tmpdir(), `tenter-${processMark()}-`);
}

/** What has been swept by this process; what dies later is found by the next. */
const swept = new Set<string>();

/**
 * Removes what killed processes left of files in a folder: at once where this machine knows that the
 * process is gone. Of another machine, of this one before it was started again, and of a file without a
 * mark nobody can be asked; such a file goes when it was not written to for a day, which no picture takes.
 * A folder that cannot be read stays as it is.
 */
export async function sweepParts(folder: string): Promise<void> {
  if (swept.has(folder)) return;
  swept.add(folder);
  for (const entry of await readdir(folder, { withFileTypes: true }).catch(() => [])) {
    const path = join(folder, entry.name);
    if (entry.isFile() && (await isLeftPart(path, entry.name))) await rm(path, { force: true });
  }
}

/** The same for folders that were being filled, of which only a process that is known to be gone leaves one. */
export async function sweepPartFolders(folder: string): Promise<void> {
  for (const entry of await readdir(folder, { withFileTypes: true }).catch(() => []))
    if (entry.isDirectory() && isLitter(entry.name, PART))
      await rm(join(folder, entry.name), { recursive: true, force: true });
}

async function isLeftPart(path: string, name: string): Promise<boolean> {
  if (isLitter(name, PART)) return true;
  const mark = PART.exec(name)?.[1];
  if (mark === undefined ? !PART_WITHOUT_MARK.test(name) : isMarkOfThisMachine(mark)) return false;
  const found = await lstat(path).catch(() => undefined);
  return found !== undefined && Date.now() - found.mtimeMs > LEFT_AFTER_MS;
}

/** Removes temporary folders of killed processes, at once: some that make one cannot wait. */
export function sweepTemporary(folder = tmpdir()): void {
  if (swept.has(folder)) return;
  swept.add(folder);
  try {
    for (const entry of readdirSync(folder, { withFileTypes: true })) {
      if (!entry.isDirectory() || !isLitter(entry.name, TEMPORARY)) continue;
      rmSync(join(folder, entry.name), { recursive: true, force: true });
    }
  } catch {
    // What is another user's is his to remove, and a folder that cannot be read is told by whoever writes into it.
  }
}

function isLitter(name: string, form: RegExp): boolean {
  const mark = form.exec(name)?.[1];
  return mark !== undefined && isMarkOfDead(mark);
}
