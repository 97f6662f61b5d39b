import { DEFAULT_LIGHT, type Light, lightRelief, openLight } from 'tenter/render';
import paper from '../paper-tooth/index.ts';
import type { PaperModel } from '../paper-tooth/model.ts';
import { type Made, makerOf, painterOf } from './make.ts';

export const makePaper = makerOf<PaperModel>(paper);
export const paintPaper = painterOf<'relief' | 'shade' | 'load'>(paper);

/** The paper's shade as the host lights it. */
export function litPaper(
  made: Made<PaperModel>,
  x: number,
  y: number,
  width: number,
  height: number,
  light: Light = DEFAULT_LIGHT,
): Float32Array {
  const opened = openLight(light, made.grid.mmPerPixelX, made.grid.mmPerPixelY);
  const { margin } = opened;
  const around = paintPaper(made, x - margin, y - margin, width + 2 * margin, height + 2 * margin);
  const { shade } = paintPaper(made, x, y, width, height);
  lightRelief(around.relief, width, height, opened, shade);
  return shade;
}
