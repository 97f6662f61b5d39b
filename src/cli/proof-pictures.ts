import { lstat } from 'node:fs/promises';
import { join } from 'node:path';
import type { CheckName, ProofReport } from '../effect/prove/report.ts';
import { writePicture } from '../picture/index.ts';
import { captionProof } from './caption-proof.ts';

/**
 * Writes the picture of every failure that has one, on a card with its caption, as `EFFECT-CHECK.png`; where that name is taken, as
 * `EFFECT-CHECK-2.png` and so on.
 *
 * @param folder    Made where it is missing, and only where there is something to write.
 * @param overwrite Replace what has that name.
 * @returns The file of each check.
 * @throws Fault (output) where it cannot be written.
 */
export async function writeProofPictures(
  { effect, results }: ProofReport,
  folder: string,
  overwrite = false,
): Promise<ReadonlyMap<CheckName, string>> {
  const files = new Map<CheckName, string>();
  for (const result of results) {
    if (result.status !== 'failed' || !result.failure.picture) continue;
    const name = join(folder, `${effect}-${result.check}`);
    const file = overwrite ? `${name}.png` : await freeName(name);
    const { pixels, width, height } = captionProof(effect, result, result.failure.picture);
    await writePicture(file, { pixels: new Uint8Array(pixels), width, height }, { overwrite });
    files.set(result.check, file);
  }
  return files;
}

/** A link counts as taken, wherever it leads. */
async function freeName(name: string): Promise<string> {
  for (let number = 1; ; number++) {
    const file = `${name}${number === 1 ? '' : `-${number}`}.png`;
    const isFree = await lstat(file).then(
      () => false,
      () => true,
    );
    if (isFree) return file;
  }
}
