import { Fault } from '../fault.ts';
import { READ_FORMATS } from './picture.ts';

/** What a file is like that cannot be read. */
interface Unreadable {
  readonly received: string;
  readonly remedy?: string;
  readonly cause?: unknown;
}

/** The Fault of a file that cannot be read as a picture. */
export function unreadable(
  path: string,
  { received, remedy = 'Give another file.', cause }: Unreadable,
): Fault {
  return new Fault({
    kind: 'input',
    expected: `a whole picture (${READ_FORMATS})`,
    subject: path,
    received,
    remedy,
    cause,
  });
}

/** The Fault of a file that begins like a picture and does not go on like one. */
export function damaged(path: string, format: string, cause?: unknown): Fault {
  return unreadable(path, {
    received: `a ${format} file that is cut short or damaged`,
    remedy: 'Copy it again, or save it again where it was made.',
    cause,
  });
}

/** The Fault of a file that cannot be written. */
export function unwritable(path: string, cause: unknown, received = reasonOf(cause)): Fault {
  return new Fault({
    kind: 'output',
    expected: 'a place that can be written',
    subject: path,
    received,
    remedy: 'Nothing was written. Check the folder, its rights and the room on the disk.',
    cause,
  });
}

/** Why the system refuses a file, in plain words, by its error code. */
const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'no file of that name',
  ENOTDIR: 'a path that leads through a file as if it were a folder',
  EACCES: 'no permission',
  EPERM: 'no permission',
  EROFS: 'a disk that cannot be written',
  ENOSPC: 'a disk that is full',
  EDQUOT: 'a disk whose share is used up',
  ENAMETOOLONG: 'a name that is too long',
  ELOOP: 'links that lead in a circle',
  EMFILE: 'too many open files',
  EISDIR: 'a folder',
  ENXIO: 'something that is no file',
  ERR_INVALID_ARG_VALUE: 'a name with a character in it that no file can have',
  EEXIST: 'a file of that name',
};

/** What a failed system call means, in plain words. */
export function reasonOf(cause: unknown): string {
  const { code, message } = cause as NodeJS.ErrnoException;
  return REASONS[code ?? ''] ?? firstLine(message ?? String(cause));
}

function firstLine(text: string): string {
  return text.split('\n')[0];
}
