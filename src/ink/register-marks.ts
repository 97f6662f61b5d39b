/** The margin round a tile that marks stand in, px. */
export interface MarkedSize {
  /** Of the tile. */
  readonly width: number;
  readonly height: number;
  /** Of the margin at each side; 0 for none. */
  readonly margin: number;
}

/** Of the margin: half the length of a cross, its distance from the tile, the width of a line, that of a bar. */
const ARM = 0.3;
const AWAY = 0.5;
const LINE = 0.012;
const BAR = 0.05;

/**
 * Whether a mark stands at a place of the margin. In the middle of each side there is a cross, the same on every plate,
 * so that screens are brought to stand on one another; at each corner two lines in line with the edges of the repeat;
 * and above its left edge as many bars as the plate's place in the order of printing, so that plates are told apart.
 *
 * @param x     px from the left edge of the tile, below 0 in the left margin; `y` likewise from its top.
 * @param order From 1.
 */
export function isMark({ width, height, margin }: MarkedSize, x: number, y: number, order: number): boolean {
  const beyondX = x < 0 ? -1 - x : Math.max(-1, x - width);
  const beyondY = y < 0 ? -1 - y : Math.max(-1, y - height);
  const line = Math.max(1, Math.round(LINE * margin));
  if (beyondX >= 0 && beyondY >= 0) return false;
  if (beyondX < 0 && beyondY < 0) return false;
  const [along, beyond, side] = beyondX < 0 ? [x, beyondY, width] : [y, beyondX, height];
  if (beyond >= 0.1 * margin && beyond < 0.9 * margin && (along < line || along >= side - line)) return true;
  if (isCross(along - (side >> 1), beyond - Math.round(AWAY * margin), ARM * margin, line)) return true;
  return y < 0 && isBar(x, beyond, margin, order);
}

function isCross(dx: number, dy: number, arm: number, line: number): boolean {
  const on = (d: number) => d >= -(line >> 1) && d < line - (line >> 1);
  return (on(dx) && Math.abs(dy) <= arm) || (on(dy) && Math.abs(dx) <= arm);
}

function isBar(x: number, beyond: number, margin: number, order: number): boolean {
  const wide = Math.max(1, Math.round(BAR * margin));
  const from = x - 4 * wide;
  if (from < 0 || beyond < AWAY * margin - 3 * wide || beyond > AWAY * margin + 3 * wide) return false;
  return Math.floor(from / (2 * wide)) < order && from % (2 * wide) < wide;
}

/**
 * Rows of a plate with the margin at either side: as they are written where marks are asked for.
 *
 * @param bits What a sample holds: 1 packed eight to a byte, the leftmost highest, or 8.
 * @param rows Rows of the tile from `top` on; none where the rows lie above or below it.
 * @param top  The first row, px from the top of the tile; below 0 in the margin above.
 * @returns `count` rows, `width + 2 * margin` samples each.
 */
export function markedRows(
  size: MarkedSize,
  order: number,
  bits: 1 | 8,
  top: number,
  count: number,
  rows?: Uint8Array,
): Uint8Array {
  const { width, margin } = size;
  const wide = width + 2 * margin;
  const outBytes = bits === 8 ? wide : Math.ceil(wide / 8);
  const inBytes = bits === 8 ? width : Math.ceil(width / 8);
  const marked = new Uint8Array(outBytes * count);
  for (let row = 0; row < count; row++) {
    const put = (column: number, value: number) => {
      if (bits === 8) marked[row * outBytes + column] = value;
      else if (value > 0) marked[row * outBytes + (column >> 3)] |= 0x80 >> (column & 7);
    };
    for (let column = 0; column < wide; column++) {
      const x = column - margin;
      if (rows && x >= 0 && x < width) {
        const from = row * inBytes;
        put(column, bits === 8 ? rows[from + x] : rows[from + (x >> 3)] & (0x80 >> (x & 7)));
      } else if (isMark(size, x, top + row, order)) put(column, 255);
    }
  }
  return marked;
}
