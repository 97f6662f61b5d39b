import { boxCount, latticeOf, modulo, unfoldedLayout } from '../../../repeat/lattice.ts';
import { parseLayout } from '../../../repeat/layout.ts';
import { reflectionAt } from '../../../repeat/unfold.ts';

/** Of one tile of the drawing, px. */
const SIDE = 18;

/** A small drawing of how tiles stand: a leaf that no turn or mirroring leaves as it is. */
export function LayoutDrawing({ layout: words }: { layout: string }) {
  const layout = parseLayout(words);
  const { across, down } = boxCount(layout);
  const lattice = latticeOf(unfoldedLayout(layout), SIDE * across, SIDE * down);
  const tiles = [];
  for (let i = -5; i <= 5; i++) {
    for (let j = -5; j <= 5; j++) {
      for (let column = 0; column < across; column++) {
        for (let row = 0; row < down; row++) {
          const x = i * lattice.ax + j * lattice.bx + column * SIDE;
          const y = i * lattice.ay + j * lattice.by + row * SIDE;
          const { flipX, flipY } = reflectionAt(layout, modulo(column, across), modulo(row, down));
          const isSeen = x > -SIDE && y > -SIDE && x < 4 * SIDE && y < 3 * SIDE;
          if (isSeen) tiles.push({ x, y, flipX, flipY });
        }
      }
    }
  }
  return (
    <svg class="layout-drawing" width="72" height="54" viewBox="0 0 72 54" aria-hidden="true">
      {tiles.map(({ x, y, flipX, flipY }) => (
        <g
          key={`${x} ${y}`}
          transform={`translate(${x + (flipX ? SIDE : 0)} ${y + (flipY ? SIDE : 0)}) scale(${flipX ? -1 : 1} ${flipY ? -1 : 1})`}
        >
          <rect width={SIDE} height={SIDE} />
          <path d="M4 15 C4 8 8 4 14 4 C14 10 11 14 4 15 Z M4 15 L9 9" />
          <circle cx="13" cy="13" r="1.6" />
        </g>
      ))}
    </svg>
  );
}
