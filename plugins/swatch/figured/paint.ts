import { type Band, homeParts } from 'tenter';
import type { Model } from './model.ts';
import { addSample, addStraight, type Sight, sightOf } from './sample.ts';

/** Fills planes of linear light for a band of the plane. */
export function paintFigured(model: Model, band: Band, planes: readonly Float32Array[]): void {
  const mm = Math.sqrt(band.mmPerPixelX * band.mmPerPixelY);
  const sight = sightOf(model.levels, mm, model.closed ? model.box : undefined);
  for (const plane of planes) plane.fill(0, 0, band.width * band.height);
  const brush = new Brush(model, sight, planes, band);
  for (const part of homeParts(band, model.box.lattice)) {
    for (let row = 0; row < part.height; row++) {
      const y = (part.y + row + 0.5) * band.mmPerPixelY;
      brush.row(part.x, band.mmPerPixelX, y, part.at + row * band.width, part.width);
    }
  }
}

/** Paints rows of pixels, cell by cell: of one piece where all four corners are of one, else of each by its share. */
class Brush {
  private readonly stride: number;
  private readonly shares = new Float64Array(4);
  private readonly corners = new Int32Array(4);
  private readonly one: Float32Array[];
  private readonly mmX: number;
  private readonly mmY: number;

  constructor(
    private readonly model: Model,
    private readonly sight: Sight,
    private readonly planes: readonly Float32Array[],
    { mmPerPixelX, mmPerPixelY }: Band,
  ) {
    this.mmX = mmPerPixelX;
    this.mmY = mmPerPixelY;
    this.stride = model.width + 2;
    this.one = planes.map(() => new Float32Array(1));
  }

  /** A row of `count` pixels from pixel `x0` of the box on, at y mm. */
  row(x0: number, mm: number, y: number, at: number, count: number): void {
    const { width, height, mmPerCellX, mmPerCellY, piece } = this.model;
    const t = y / mmPerCellY - 0.5;
    const j = Math.min(height - 1, Math.max(-1, Math.floor(t)));
    const v = t - j;
    const above = (j + 1) * this.stride + 1;
    for (let c = 0; c < count; c++) {
      const x = (x0 + c + 0.5) * mm;
      const s = x / mmPerCellX - 0.5;
      const i = Math.min(width - 1, Math.max(-1, Math.floor(s)));
      const k = above + i;
      const n = k + this.stride;
      const a = piece[k];
      if (a === piece[k + 1] && a === piece[n] && a === piece[n + 1]) {
        this.inside(a, k, n, x, y, s - i, v, at + c);
      } else {
        this.mixed(k, n, x, y, s - i, v, at + c);
      }
    }
  }

  private inside(
    a: number,
    k: number,
    n: number,
    x: number,
    y: number,
    u: number,
    v: number,
    at: number,
  ): void {
    const { movedX, movedY, gains } = this.model;
    const w3 = u * v;
    const w2 = v - w3;
    const w1 = u - w3;
    const w0 = 1 - u - w2;
    const dx = w0 * movedX[k] + w1 * movedX[k + 1] + w2 * movedX[n] + w3 * movedX[n + 1];
    const dy = w0 * movedY[k] + w1 * movedY[k + 1] + w2 * movedY[n] + w3 * movedY[n + 1];
    this.see(a, x + dx, y + dy, this.planes, at);
    for (let plane = 0; plane < this.planes.length; plane++) {
      const gain = gains[plane];
      this.planes[plane][at] *= w0 * gain[k] + w1 * gain[k + 1] + w2 * gain[n] + w3 * gain[n + 1];
    }
  }

  /** Each piece is seen once, moved and lifted as its own corners are, by their shares. */
  private mixed(k: number, n: number, x: number, y: number, u: number, v: number, at: number): void {
    const { piece, movedX, movedY, gains } = this.model;
    const { shares, corners, one, planes } = this;
    corners[0] = k;
    corners[1] = k + 1;
    corners[2] = n;
    corners[3] = n + 1;
    shares[3] = u * v;
    shares[2] = v - shares[3];
    shares[1] = u - shares[3];
    shares[0] = 1 - u - shares[2];
    for (let corner = 0; corner < 4; corner++) {
      const own = piece[corners[corner]];
      let share = 0;
      let dx = 0;
      let dy = 0;
      let isFirst = true;
      for (let other = 0; other < 4; other++) {
        if (piece[corners[other]] !== own) continue;
        if (other < corner) isFirst = false;
        share += shares[other];
        dx += shares[other] * movedX[corners[other]];
        dy += shares[other] * movedY[corners[other]];
      }
      if (!isFirst || !(share > 0)) continue;
      for (const sum of one) sum[0] = 0;
      this.see(own, x + dx / share, y + dy / share, one, 0);
      for (let plane = 0; plane < planes.length; plane++) {
        let lift = 0;
        for (let other = 0; other < 4; other++) {
          if (piece[corners[other]] === own) lift += shares[other] * gains[plane][corners[other]];
        }
        planes[plane][at] += one[plane][0] * lift;
      }
    }
  }

  /** Adds what a piece shows at (x, y) mm of the box to a pixel. */
  private see(piece: number, x: number, y: number, planes: readonly Float32Array[], at: number): void {
    const { seen, places } = this.sight;
    const { mmPerSample } = seen.level;
    const off = places === 1 ? 0 : 0.25;
    for (let k = 0; k < places * places; k++) {
      const px = x + (k & 1 ? off : -off) * this.mmX;
      const py = y + (k & 2 ? off : -off) * this.mmY;
      const p = 6 * piece;
      const { places: to } = this.model;
      const s = (to[p] * px + to[p + 1] * py + to[p + 2]) / mmPerSample - 0.5;
      const t = (to[p + 3] * px + to[p + 4] * py + to[p + 5]) / mmPerSample - 0.5;
      if (places === 1) addSample(seen, s, t, planes, at);
      else addStraight(seen, s, t, 0.25, planes, at);
    }
  }
}
