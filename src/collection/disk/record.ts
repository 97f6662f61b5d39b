import { readRegularFile } from '../../picture/regular-file.ts';

/**
 * Reads a JSON that this program left in an output folder. It lies where anybody may write, so it may be
 * anything by now: whatever is no file of that length with JSON in it counts as no record, and never as
 * a reason to stop or to wait.
 *
 * @param most Bytes that such a record has at most.
 */
export async function readRecord(path: string, most: number): Promise<unknown> {
  try {
    return JSON.parse((await readRegularFile(path, most)).toString('utf8'));
  } catch {
    return undefined;
  }
}
