import { cellIndex, type FieldShape } from './periodic.ts';

/**
 * A field with a frame of copies, one cell wide: loops over a stencil then meet no seam. Cell (i, j) stands at
 * `(i + 1) + (j + 1) * stride`.
 */
export interface Frame {
  readonly stride: number;
  readonly length: number;
  /** Where the copies stand, and what they are copies of. */
  readonly ghosts: Int32Array;
  readonly sources: Int32Array;
}

export function frameOf(shape: FieldShape): Frame {
  const { width, height } = shape;
  const stride = width + 2;
  const ghosts: number[] = [];
  const sources: number[] = [];
  const add = (i: number, j: number) => {
    const cell = cellIndex(shape, i, j);
    ghosts.push(i + 1 + (j + 1) * stride);
    sources.push((cell % width) + 1 + (Math.floor(cell / width) + 1) * stride);
  };
  for (let i = -1; i <= width; i++) for (const j of [-1, height]) add(i, j);
  for (let j = 0; j < height; j++) for (const i of [-1, width]) add(i, j);
  return {
    stride,
    length: stride * (height + 2),
    ghosts: Int32Array.from(ghosts),
    sources: Int32Array.from(sources),
  };
}

/** Brings the copies in the frame up to date. */
export function wrapFrame({ ghosts, sources }: Frame, framed: Float32Array): void {
  for (let k = 0; k < ghosts.length; k++) framed[ghosts[k]] = framed[sources[k]];
}

/** Values in a frame, the copies included. */
export function intoFrame(frame: Frame, { width, height }: FieldShape, values: Float32Array): Float32Array {
  const framed = new Float32Array(frame.length);
  for (let j = 0; j < height; j++) {
    framed.set(values.subarray(j * width, (j + 1) * width), 1 + (j + 1) * frame.stride);
  }
  wrapFrame(frame, framed);
  return framed;
}

/** The values out of a frame. */
export function outOfFrame(
  frame: Frame,
  { width, height }: FieldShape,
  framed: Float32Array,
  values: Float32Array,
): void {
  for (let j = 0; j < height; j++) {
    const start = 1 + (j + 1) * frame.stride;
    values.set(framed.subarray(start, start + width), j * width);
  }
}
