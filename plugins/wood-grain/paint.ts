import type { Band } from 'tenter';
import { colourPass, type WoodPlanes } from './colour-pass.ts';
import { type GrainBand, grainBand, type Window, windowsOf } from './frame.ts';
import { knotPass } from './knot-pass.ts';
import type { WoodModel } from './model.ts';
import { nodeRow } from './node-row.ts';
import type { Edge, Piece, Placement } from './piece.ts';
import { cover, PoreRow } from './pores.ts';
import { rayPass } from './ray-pass.ts';
import { RayCache } from './rays.ts';
import { type RowRange, ringPass } from './ring-pass.ts';
import { type RowScratch, rowScratch } from './scratch.ts';
import { levelFor, type SheetLevel } from './sheet.ts';
import { sheetRow } from './sheet-row.ts';
import { waveAt } from './waves.ts';

/**
 * Paints a band. Every position is worked out from the number of its pixel in the box, never carried
 * on from the edge of the band: any cut into bands gives the same bits.
 */
export function paintWood(model: WoodModel, band: Band, planes: WoodPlanes): void {
  const grain = grainBand(band, model.isAcross);
  const windows = windowsOf(grain, model.lattice);
  const widest = windows.reduce((most, { i0, i1 }) => Math.max(most, i1 - i0), 0);
  const row = rowScratch(model, widest, grain.mmU);
  const sheet = levelFor(model.sheet, grain.mmU);
  const rays = model.rays ? new RayCache(model.rays) : null;
  for (const window of windows) {
    for (const placement of model.placements) {
      new PiecePainter(model, grain, window, placement, row, planes, sheet, rays).paint();
    }
  }
}

/** Paints the part of one piece that lies in one window. */
class PiecePainter {
  private readonly piece: Piece;

  constructor(
    private readonly model: WoodModel,
    private readonly band: GrainBand,
    private readonly window: Window,
    private readonly placement: Placement,
    private readonly row: RowScratch,
    private readonly planes: WoodPlanes,
    private readonly sheet: SheetLevel,
    private readonly rays: RayCache | null,
  ) {
    this.piece = model.pieces[placement.piece];
  }

  paint(): void {
    const { band, window, placement } = this;
    const j0 = firstPixel(placement.top, band.mmV, window.j0, window.j1);
    const j1 = firstPixel(placement.bottom, band.mmV, window.j0, window.j1);
    if (j0 >= j1) return;
    let pores: PoreRow[] | undefined;
    for (let j = j0; j < j1; j++) {
      const v = (j + 0.5) * band.mmV;
      const i0 = firstPixel(this.edgeAt(placement.left, v), band.mmU, window.i0, window.i1);
      const i1 = firstPixel(this.edgeAt(placement.right, v), band.mmU, window.i0, window.i1);
      if (i0 >= i1) continue;
      pores ??= this.openPores(j0, j1);
      this.paintRow(i0, i1, j, v, pores);
    }
  }

  private edgeAt({ at, wave, shift }: Edge, v: number): number {
    return wave < 0 ? at : at + waveAt(this.model.waves[wave], v - shift);
  }

  /** Pores of the whole width of the piece within the window, with a pixel to spare for their slants. */
  private openPores(j0: number, j1: number): PoreRow[] {
    const { model, band, window, placement, piece } = this;
    const { mmU, mmV } = band;
    const spare = 2 * mmU + 0.3;
    const from = Math.max(window.i0 * mmU, placement.left.at - 8) - placement.offsetU - spare;
    const to = Math.min(window.i1 * mmU, placement.right.at + 8) - placement.offsetU + spare;
    const along = [j0 * mmV - placement.offsetV, j1 * mmV - placement.offsetV] as const;
    return model.pores.map((layer) => new PoreRow(layer, model, piece, [from, to], along));
  }

  private paintRow(i0: number, i1: number, j: number, v: number, pores: readonly PoreRow[]): void {
    const { model, band, window, placement, row, piece } = this;
    const { mmU, mmV, strideU, strideV } = band;
    const { offsetU } = placement;
    const own = v - placement.offsetV;
    const range: RowRange = { origin: i0 - 1, i0, i1, mmU, mmV, offsetU };
    // Slopes of pores need their neighbours, so what hides pores must reach one pixel further.
    const wider: RowRange = { ...range, i0: i0 - 1, i1: i1 + 1 };
    const count = i1 - i0;
    const { grid } = piece;
    const nodeOf = (i: number) => Math.floor(((i + 0.5) * mmU - offsetU - grid.u0) * grid.perMmU);
    nodeRow(
      model,
      grid,
      own,
      row,
      Math.max(0, Math.min(grid.columns - 4, nodeOf(i0 - 1) - 2)),
      Math.min(grid.columns, Math.max(4, nodeOf(i1 + 1) + 4)),
    );
    const { sheet } = this;
    const cellOf = (u: number) => Math.floor((u - offsetU + piece.detailU) / sheet.cellU - sheet.lead);
    const firstCell = cellOf((i0 - 1) * mmU + Math.min(0, row.driftLow)) - 2;
    const cells = cellOf((i1 + 1) * mmU + Math.max(0, row.driftHigh)) + 4 - firstCell;
    sheetRow(sheet, own + piece.detailV, firstCell, cells, row);
    ringPass(model, piece, range, row, sheet, firstCell);
    row.pore.fill(0, 0, count + 2);
    for (const layer of pores)
      layer.add(own, 1 / mmU, offsetU, model.look.poreStrength, row.pore, i0 - 1, count + 2);
    if (this.rays) rayPass(model, piece, wider, own, row, sheet, firstCell, this.rays);
    if (piece.knots.length > 0) knotPass(piece, wider, own, row);
    this.joints(i0, i1, v);
    const at = window.at + (i0 - window.i0) * strideU + (j - window.j0) * strideV;
    colourPass(model.look, piece.colours, row, count, this.planes, at, strideU);
  }

  /** Joints are grooves: pixels are covered by their share. */
  private joints(i0: number, i1: number, v: number): void {
    const { model, band, placement, row } = this;
    const half = model.look.halfJoint;
    if (half === 0) return;
    const count = i1 - i0 + 2;
    if (placement.hasSideJoints) {
      for (const edge of [placement.left, placement.right]) {
        const u = this.edgeAt(edge, v);
        cover(row.pore, i0 - 1, count, (u - half) / band.mmU, (u + half) / band.mmU, 0.8);
      }
    }
    const ends = [
      placement.hasTopJoint ? placement.top : Number.NaN,
      placement.hasBottomJoint ? placement.bottom : Number.NaN,
    ];
    for (const end of ends) {
      const share = Math.min(v + band.mmV / 2, end + half) - Math.max(v - band.mmV / 2, end - half);
      if (!(share > 0)) continue;
      const gain = (0.8 * share) / band.mmV;
      for (let k = 0; k < count; k++) row.pore[k] += gain;
    }
  }
}

/** The first pixel whose middle lies at `mm` or beyond, within `low`..`high`. */
function firstPixel(mm: number, mmPerPixel: number, low: number, high: number): number {
  const pixel = low + Math.ceil(mm / mmPerPixel - 0.5 - low);
  return Math.max(low, Math.min(high, pixel));
}
