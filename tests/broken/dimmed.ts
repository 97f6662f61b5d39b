import {
  API_VERSION,
  type Artwork,
  type ArtworkSetting,
  type Band,
  type Box,
  bicubicAt,
  defineEffect,
  homeParts,
  type Lattice,
  type PeriodicField,
  type TextureLayer,
} from 'tenter';

/** What paint needs of artwork. Plain data. */
export interface Dimmed {
  readonly lattice: Lattice;
  readonly red: PeriodicField;
}

export type DimmedSetting = ArtworkSetting & { readonly box: Box };

/** The sound effect that broken ones which read the artwork are variations of. */
export const dimmed = defineEffect({
  apiVersion: API_VERSION,
  name: 'dimmed',
  version: '1.0.0',
  summary: 'Less paint where the artwork is dark.',
  parameters: {},
  planes: ['load'],
  reads: ['artwork'],
  prepare: prepareDimmed,
  paint: paintDimmed,
});

export function prepareDimmed({ artwork, box }: DimmedSetting): Dimmed {
  return { lattice: { ...box.lattice }, red: redOf(artwork) };
}

function redOf({ width, height, lattice, mmPerCellX, mmPerCellY, red }: Artwork): PeriodicField {
  return { width, height, lattice, mmPerCellX, mmPerCellY, values: red };
}

export function paintDimmed(model: Dimmed, band: Band, layer: TextureLayer<'load'>): void {
  for (const { x, y, width, height, at } of homeParts(band, model.lattice))
    for (let j = 0; j < height; j++)
      for (let i = 0; i < width; i++)
        layer.load[at + j * band.width + i] =
          0.4 + bicubicAt(model.red, (x + i + 0.5) * band.mmPerPixelX, (y + j + 0.5) * band.mmPerPixelY);
}

export default dimmed;
