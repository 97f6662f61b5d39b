import { readPictureValue, statedPixel } from '../effect/picture-value.ts';
import { Fault } from '../fault.ts';
import { type DeepPicture, type PictureFacts, readDeepPicture, readSteadily } from '../picture/index.ts';
import type { SharedPicture } from '../render/orders.ts';
import type { RenderStep } from '../render/step.ts';

/** A picture of a file, and what its bytes are told by. */
export interface FilePicture extends DeepPicture {
  readonly sha256: string;
}

/** Reads the files of pictures, and may keep them. */
export interface PictureFiles {
  /**
   * @param path    Absolute.
   * @param onBytes Told before it is decoded how many bytes it will take; not told for what was kept.
   * @throws Fault (input).
   */
  read(path: string, onBytes: (bytes: number) => void): Promise<FilePicture>;
}

/** Reads a picture together with the hash of the bytes it was read from. @throws Fault (input). */
export async function readFilePicture(path: string, onBytes?: (bytes: number) => void): Promise<FilePicture> {
  const { result, sha256 } = await readSteadily(path, () => readDeepPicture(path, { onBytes }));
  return { ...result, sha256 };
}

/** Reads each file once, for as long as it is held itself. */
export function openPictureFiles(): PictureFiles {
  const known = new Map<string, Promise<FilePicture>>();
  return {
    read(path, onBytes) {
      const found = known.get(path) ?? readFilePicture(path, onBytes);
      known.set(path, found);
      return found;
    },
  };
}

/**
 * The same steps with the pictures that their parameters name.
 *
 * @param onBytes Told how many bytes each picture will take, before it is read.
 * @throws Fault (input) for one that cannot be read, or whose size in mm nobody states.
 */
export function withPictures(
  steps: readonly RenderStep[],
  files: PictureFiles,
  onBytes: (bytes: number) => void = () => {},
): Promise<RenderStep[]> {
  return Promise.all(
    steps.map(async (step) => {
      const values = pictureValues(step);
      if (values.length === 0) return step;
      const pictures = values.map(async ([name, value]) => {
        const { path } = readPictureValue(value);
        return [name, atScale(await files.read(path, onBytes), value)] as const;
      });
      return {
        ...step,
        order: { ...step.order, pictures: Object.fromEntries(await Promise.all(pictures)) },
      };
    }),
  );
}

/** The values of a step's picture parameters, by name. */
export function pictureValues({
  declares,
  order,
}: Pick<RenderStep, 'declares' | 'order'>): [name: string, value: string][] {
  return (declares.pictures ?? []).map((name) => [name, order.parameters[name] as string]);
}

/** The files that the picture parameters of steps name. */
export function picturePaths(steps: readonly RenderStep[]): string[] {
  return steps.flatMap((step) => pictureValues(step).map(([, value]) => readPictureValue(value).path));
}

function atScale(picture: FilePicture, value: string): SharedPicture {
  const { width, height, samples, sha256 } = picture;
  const { x: mmPerPixelX, y: mmPerPixelY } = mmOfPixel(picture, value);
  return { width, height, mmPerPixelX, mmPerPixelY, samples, sha256 };
}

/**
 * mm of a pixel across and down: as stated behind the path, else by the file's density.
 *
 * @throws Fault (input) where neither says it.
 */
export function mmOfPixel(facts: PictureFacts, value: string): { readonly x: number; readonly y: number } {
  const stated = readPictureValue(value);
  const { density } = facts;
  const pixel = statedPixel(stated, facts) ?? (density && { x: 1 / density.x, y: 1 / density.y });
  if (pixel) return pixel;
  throw new Fault({
    kind: 'input',
    expected: 'a picture whose size in mm is known',
    subject: stated.path,
    received: 'a file that states no density',
    remedy: `Write its size or its density behind it: ${stated.path}@100x80mm or ${stated.path}@300dpi.`,
  });
}
