import { createHash } from 'node:crypto';
import { readFileSync, readlinkSync } from 'node:fs';
import { hostname } from 'node:os';

/**
 * This machine since it was started, in 16 letters. Two containers of one machine see different
 * processes under one number, so their name space counts as well.
 */
export const MACHINE = createHash('sha256')
  .update(
    [
      hostname(),
      tryTo(() => readFileSync('/proc/sys/kernel/random/boot_id', 'utf8')),
      tryTo(() => readlinkSync('/proc/self/ns/pid')),
    ].join('\n'),
  )
  .digest('hex')
  .slice(0, 16);

/** A process of this machine. */
export interface ProcessCard {
  readonly pid: number;
  /** When it began, so that its number given to another is noticed; none where the system does not tell. */
  readonly began?: string;
}

/** The card of this process. */
export function ownCard(): ProcessCard {
  return { pid: process.pid, began: beganAt(process.pid) };
}

/** True for a process of this machine that still runs. */
export function isRunning({ pid, began }: ProcessCard): boolean {
  try {
    process.kill(pid, 0);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ESRCH') return false;
  }
  return began === undefined || beganAt(pid) === began;
}

/** What marks the name of a file or folder that goes with this process: `MACHINE-PID-BEGAN`. */
export function processMark(): string {
  const { pid, began = '' } = ownCard();
  return `${MACHINE}-${pid}-${began}`;
}

/** The form of a mark, for expressions that look for one; its three parts are groups. */
export const MARK = '([0-9a-f]{16})-(\\d{1,10})-(\\d*)';

/** True for a mark of this machine whose process is gone; of other machines nothing is known. */
export function isMarkOfDead(mark: string): boolean {
  const [, machine, pid, began] = new RegExp(`^${MARK}$`).exec(mark) ?? [];
  return machine === MACHINE && !isRunning({ pid: Number(pid), began: began || undefined });
}

/** True for a mark of this machine since it was started: whether its process lives is known. */
export function isMarkOfThisMachine(mark: string): boolean {
  return mark.startsWith(`${MACHINE}-`);
}

/** Field 22 of /proc/PID/stat, ticks since the machine began (Linux, proc(5)). A dead process that nobody has buried counts as gone. */
function beganAt(pid: number): string | undefined {
  const text = tryTo(() => readFileSync(`/proc/${pid}/stat`, 'utf8'));
  if (!text) return undefined;
  const fields = text.slice(text.lastIndexOf(')') + 2).split(' ');
  return fields[0] === 'Z' ? 'dead' : fields[19];
}

function tryTo(read: () => string): string | undefined {
  try {
    return read();
  } catch {
    return undefined;
  }
}
