import {
  type Band,
  boxOf,
  neutralLayer,
  parseLayout,
  type Setting,
  type TextureLayer,
  type ValuesOf,
} from 'tenter';
import { openSetting } from 'tenter/render';
import salt from '../salt-bloom/index.ts';
import type { SaltModel } from '../salt-bloom/model.ts';
import { type Planes, paintSalt } from '../salt-bloom/paint.ts';
import type { PARAMETERS } from '../salt-bloom/parameters.ts';
import { prepareOnCells, prepareSalt } from '../salt-bloom/prepare.ts';

export type Given = Partial<ValuesOf<typeof PARAMETERS>>;

export interface Making {
  readonly layout?: string;
  readonly width?: number;
  readonly height?: number;
  readonly seed?: string;
  readonly quality?: 'finished' | 'sketch';
}

export const boxFor = ({ layout = 'drop:1/2', width = 36, height = 30 }: Making) =>
  boxOf({ layout: parseLayout(layout), width, height });

export function settingFor(parameters: Given, making: Making = {}) {
  const { seed = 'test', quality = 'finished' } = making;
  const { setting, reports } = openSetting(salt, { box: boxFor(making), seed, quality, parameters });
  return { setting: setting as Setting<typeof PARAMETERS>, reports };
}

export function prepared(parameters: Given, making: Making = {}): SaltModel {
  return prepareSalt(settingFor(parameters, making).setting);
}

export function preparedOn(mmPerCell: number, parameters: Given, making: Making = {}): SaltModel {
  return prepareOnCells(settingFor(parameters, making).setting, mmPerCell);
}

/** All planes of a rectangle of pixels. */
export function paintedLayer(
  model: SaltModel,
  x: number,
  y: number,
  width: number,
  height: number,
  mm: number | readonly [number, number],
): TextureLayer<Planes> {
  const [mmPerPixelX, mmPerPixelY] = typeof mm === 'number' ? [mm, mm] : mm;
  const layer = neutralLayer(salt.planes, width, height) as TextureLayer<Planes>;
  const band: Band = { x, y, width, height, mmPerPixelX, mmPerPixelY };
  paintSalt(model, band, layer);
  return layer;
}

/** The load of a rectangle of pixels. */
export function painted(...place: Parameters<typeof paintedLayer>): Float32Array {
  return paintedLayer(...place).load;
}

/** The same without what settles in the hollows of the paper. */
export function withoutPaper(model: SaltModel): SaltModel {
  const { settling } = model;
  return { ...model, settling: { ...settling, values: new Float32Array(settling.values.length) } };
}
