import { join } from 'node:path';
import { pictureNames } from '../effect/picture-value.ts';
import { proofName, proofPicture } from '../effect/prove/proof-swatches.ts';
import type { Trial } from '../effect/prove/trial.ts';
import { writePicture } from '../picture/index.ts';
import type { EffectDescription } from '../render/description.ts';

/**
 * A setting as a command can draw it: the kit's own pictures, which it was tried with, lie in a folder, and the
 * setting names them. Also where it says nothing of them, since the kit does not read what an effect brings along.
 *
 * @throws Fault (output) where they cannot be written.
 */
export async function withProofSwatches(
  trial: Trial,
  { parameters }: Pick<EffectDescription, 'parameters'>,
  folder: string,
): Promise<Trial> {
  const named = pictureNames(parameters).map((name) => [name, proofName(trial.parameters[name])] as const);
  const paths = named.map(([name, file]) => [name, join(folder, file)] as const);
  for (const file of new Set(named.map(([, one]) => one))) await writeProofSwatch(join(folder, file), file);
  return named.length > 0
    ? { ...trial, parameters: { ...trial.parameters, ...Object.fromEntries(paths) } }
    : trial;
}

async function writeProofSwatch(path: string, name: string): Promise<void> {
  const { samples: pixels, width, height, mmPerPixelX, mmPerPixelY } = proofPicture(name);
  const pixelsPerMm = { x: 1 / mmPerPixelX, y: 1 / mmPerPixelY };
  await writePicture(path, { pixels, width, height, bits: 16, pixelsPerMm }, { overwrite: true });
}
