import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { CheckName, ProofReport } from '../effect/prove/report.ts';
import { Fault } from '../fault.ts';
import { writePicture } from '../picture/index.ts';

/**
 * Writes the picture of every failure that has one as `EFFECT-CHECK.png`.
 *
 * @param folder Made where it is missing, and only where there is something to write.
 * @returns The file of each check.
 * @throws Fault (output) where it cannot be written.
 */
export async function writeProofPictures(
  { effect, results }: ProofReport,
  folder: string,
): Promise<ReadonlyMap<CheckName, string>> {
  const files = new Map<CheckName, string>();
  for (const result of results) {
    const picture = result.status === 'failed' ? result.failure.picture : undefined;
    if (!picture) continue;
    await makeFolder(folder);
    const file = join(folder, `${effect}-${result.check}.png`);
    const { pixels, width, height } = picture;
    await writePicture(file, { pixels: new Uint8Array(pixels), width, height }, { overwrite: true });
    files.set(result.check, file);
  }
  return files;
}

async function makeFolder(folder: string): Promise<void> {
  try {
    await mkdir(folder, { recursive: true });
  } catch (cause) {
    throw new Fault({
      kind: 'output',
      expected: 'a folder that can be written to',
      subject: '--out',
      received: `"${folder}" (${(cause as Error).message})`,
      remedy: 'Name another folder.',
      cause,
    });
  }
}
