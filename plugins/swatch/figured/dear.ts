import { cellIndex } from 'tenter';
import type { Quilt } from './quilt.ts';

/** Cells across a block by which the dearest joins are looked for. */
const BLOCK = 8;

/** Where joins cost most. */
export class Dear {
  private readonly cost: Float64Array;
  private readonly blocks: Float64Array;
  private readonly weary: Float64Array;
  private readonly across: number;

  constructor(private readonly quilt: Quilt) {
    const { width, height } = quilt.shape;
    this.across = Math.ceil(width / BLOCK);
    const count = this.across * Math.ceil(height / BLOCK);
    this.cost = new Float64Array(width * height);
    this.blocks = new Float64Array(count);
    this.weary = new Float64Array(count).fill(1);
    this.renew(1, 1, width, height);
  }

  /** Counts the joins of a rectangle of the plane anew, and those to it from the left and above. */
  renew(x: number, y: number, width: number, height: number): void {
    for (let j = y - 1; j < y + height; j++) {
      for (let i = x - 1; i < x + width; i++) {
        const cell = cellIndex(this.quilt.shape, i, j);
        const now = this.quilt.joinCost(cell);
        this.blocks[this.blockOf(cell)] += now - this.cost[cell];
        this.cost[cell] = now;
      }
    }
  }

  private blockOf(cell: number): number {
    const { width } = this.quilt.shape;
    return Math.floor((cell % width) / BLOCK) + Math.floor(cell / width / BLOCK) * this.across;
  }

  /** The cell in the middle of the block whose joins cost most, those tried in vain counted less; -1 where none cost. */
  dearest(): number {
    let best = -1;
    let most = 0;
    for (let block = 0; block < this.blocks.length; block++) {
      if (this.blocks[block] * this.weary[block] <= most) continue;
      most = this.blocks[block] * this.weary[block];
      best = block;
    }
    if (best < 0) return -1;
    const { shape } = this.quilt;
    const i = Math.min(shape.width - 1, (best % this.across) * BLOCK + BLOCK / 2);
    const j = Math.min(shape.height - 1, Math.floor(best / this.across) * BLOCK + BLOCK / 2);
    return i + j * shape.width;
  }

  tried(cell: number, gained: boolean): void {
    this.weary[this.blockOf(cell)] *= gained ? 0.8 : 0.4;
  }
}
