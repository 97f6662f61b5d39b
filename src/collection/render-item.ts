import type { Crew } from '../host/crew.ts';
import type { Allot, Frame } from '../host/frame.ts';
import { renderTile } from '../host/render.ts';
import type { TextureKeeper } from '../host/textures.ts';
import { writePicture } from '../picture/index.ts';
import { formatLayout, isReflected } from '../repeat/layout.ts';
import { formatSize } from '../repeat/length.ts';
import type { Hands } from './hands.ts';
import type { Item } from './item.ts';
import type { Rooms } from './rooms.ts';
import type { Sidecar } from './sidecar.ts';
import { type PlannedFile, whileUnchanged } from './steady.ts';
import type { OpenTile } from './tile-store.ts';

export interface RenderTools {
  readonly crew: Crew;
  readonly hands: Hands;
  readonly textures?: TextureKeeper;
  /** Memory for the pictures under way; all of it goes back once a render is well over. */
  readonly rooms: Rooms;
  readonly signal?: AbortSignal;
}

/** A finished picture that has yet to be put in its place. */
export interface RenderedItem {
  readonly bytes: number;
  readonly facts: Pick<Sidecar, 'seams' | 'tileSeams' | 'notes' | 'reports'> & {
    readonly picture: Omit<Sidecar['picture'], 'sha256' | 'bytes'>;
  };
  /** ms of each stage. */
  readonly milliseconds: Readonly<Record<'prepare' | 'paint' | 'write', number>>;
}

/**
 * Renders an item from its tile and writes the picture to `path`.
 *
 * @throws Fault of any kind; nothing is then at `path`.
 */
export async function renderItem(
  item: Item,
  tile: OpenTile,
  path: string,
  tools: RenderTools,
): Promise<RenderedItem> {
  const { grid, steps, follow, quality } = item;
  const unfolds = isReflected(grid.repeat.layout) && follow === 'cloth';
  const own = unfolds ? tile.frame : copyOf(tile.frame, tools.rooms.allot);
  const rendered = await whileUnchanged(masksOf(item), () =>
    renderTile(
      { grid, tile: own, steps, follow, quality },
      { crew: tools.crew, textures: tools.textures, allot: tools.rooms.allot, signal: tools.signal },
    ),
  );
  const started = performance.now();
  const { frame, grid: resultGrid } = rendered;
  const checking = tools.hands.ask({
    kind: 'result',
    result: frame,
    resultGrid,
    tile: tile.frame,
    grid,
    isSameGrid: resultGrid === grid,
  });
  const bits = frame.pixels instanceof Uint16Array ? 16 : 8;
  const pixelsPerMm = { x: 1 / resultGrid.mmPerPixelX, y: 1 / resultGrid.mmPerPixelY };
  const writing = writePicture(
    path,
    { ...frame, bits, pixelsPerMm },
    { overwrite: true, signal: tools.signal },
  );
  const [{ bytes }, seams] = await bothOf(writing, checking);
  const { width, height, layout } = resultGrid.repeat;
  return {
    bytes,
    facts: {
      seams,
      tileSeams: tile.seams,
      notes: [...tile.notes, ...notesOf(item, unfolds, formatSize(resultGrid.repeat))],
      reports: rendered.reports,
      picture: {
        widthPx: frame.width,
        heightPx: frame.height,
        layout: formatLayout(layout),
        widthMm: width,
        heightMm: height,
        dpi: 25.4 / resultGrid.mmPerPixelX,
      },
    },
    milliseconds: { ...rendered.timings, write: performance.now() - started },
  };
}

/** The mask pictures of its steps, which the host reads while it renders. */
function masksOf({ steps, inputs }: Item): PlannedFile[] {
  return steps.flatMap(({ mask }, index) => {
    const sha256 = inputs.steps[index].mask?.picture;
    return mask?.picture !== undefined && typeof sha256 === 'string' ? [{ path: mask.picture, sha256 }] : [];
  });
}

/** Waits for both even where one fails: the pixels must not be given up under the other's hands. */
async function bothOf<A, B>(first: Promise<A>, second: Promise<B>): Promise<[A, B]> {
  await Promise.allSettled([first, second]);
  return Promise.all([first, second]);
}

/** A render works in the memory of its tile. */
function copyOf({ pixels, width, height }: Frame, allot: Allot): Frame {
  const copy = allot(pixels, pixels.length);
  copy.set(pixels);
  return { pixels: copy, width, height };
}

function notesOf({ grid, quality }: Item, unfolds: boolean, size: string): string[] {
  const notes: string[] = [];
  if (unfolds)
    notes.push(
      `the ${formatLayout(grid.repeat.layout)} tile was unfolded; the result stands straight, ${size}`,
    );
  if (quality === 'sketch') notes.push('a sketch: simulated on a coarser grid, not for print');
  return notes;
}
