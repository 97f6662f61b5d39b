import { randomUUID } from 'node:crypto';
import { readdirSync, rmSync } from 'node:fs';
import { readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isMarkOfDead, MARK, processMark } from './process-mark.ts';

const UNIQUE = '[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}';
const PART = new RegExp(`^\\.tenter-(${MARK})-${UNIQUE}\\.part$`);
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

/** Removes what killed processes left of files in a folder. A folder that cannot be read stays as it is. */
export async function sweepParts(folder: string): Promise<void> {
  if (swept.has(folder)) return;
  swept.add(folder);
  for (const entry of await readdir(folder, { withFileTypes: true }).catch(() => [])) {
    if (entry.isFile() && isLitter(entry.name, PART)) await rm(join(folder, entry.name), { force: true });
  }
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
