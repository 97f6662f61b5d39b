import { type Laid, lay } from '../../host/lay.ts';
import type { PictureFiles } from '../../host/parameter-pictures.ts';
import type { Crew } from '../../host/threads/crew.ts';
import type { Hands } from '../../host/threads/hands.ts';
import { wordsOfShare } from '../../render/mask-words.ts';
import type { TextureKeeper } from '../../render/textures.ts';
import { formatLayout } from '../../repeat/layout.ts';
import { inShort, type Sidecar } from '../disk/sidecar.ts';
import { type PlannedFile, whileUnchanged } from '../disk/steady.ts';
import type { Item } from '../plan/item.ts';
import type { LentBlocks } from './lent-blocks.ts';
import type { OpenTile } from './tile-store.ts';

export interface RenderTools {
  readonly crew: Crew;
  readonly hands: Hands;
  readonly textures?: TextureKeeper;
  /** What its picture parameters name. */
  readonly pictures: PictureFiles;
  /** Memory for the pictures under way; all of it goes back once a render is well over. */
  readonly lent: LentBlocks;
  readonly signal?: AbortSignal;
}

/** A finished picture that has yet to be put in its place. */
export interface RenderedItem {
  readonly bytes: number;
  readonly facts: Pick<Sidecar, 'seams' | 'screens' | 'tileSeams' | 'notes' | 'reports' | 'laidOn'> & {
    readonly picture: Omit<Sidecar['picture'], 'sha256' | 'bytes'>;
  };
  /** ms of each stage. */
  readonly milliseconds: Readonly<Record<'prepare' | 'paint' | 'write', number>>;
}

/**
 * Renders an item from its tile and writes the picture to `path`.
 *
 * @throws Fault of any kind; what is then at `path` does not count.
 */
export async function renderItem(
  item: Item,
  tile: OpenTile,
  path: string,
  { crew, hands, textures, pictures, lent, signal }: RenderTools,
): Promise<RenderedItem> {
  const { grid, steps, follow, light, screens, quality } = item;
  const laid = await whileUnchanged(masksOf(item), () =>
    lay(
      {
        artwork: tile.frame,
        isShared: true,
        grid,
        steps,
        follow,
        light,
        screens,
        quality,
        out: path,
        overwrite: true,
      },
      {
        crew,
        pictures,
        memory: { textures, allot: lent.allot },
        check: (order) => hands.ask({ kind: 'result', ...order }),
        signal,
      },
    ),
  );
  const { width, height, layout } = laid.grid.repeat;
  return {
    bytes: laid.bytes,
    facts: {
      seams: inShort(laid.seams),
      tileSeams: tile.seams,
      notes: [...tile.notes, ...laid.notes, ...maskNotes(item, laid)],
      laidOn: laid.laidOn.map((share) => share ?? null),
      reports: laid.reports,
      screens: laid.screened,
      picture: {
        widthPx: laid.widthPx,
        heightPx: laid.heightPx,
        layout: formatLayout(layout),
        widthMm: width,
        heightMm: height,
        dpi: 25.4 / laid.grid.mmPerPixelX,
      },
    },
    milliseconds: laid.timings,
  };
}

function maskNotes({ steps }: Item, { laidOn, warnings }: Laid): string[] {
  const shares = steps.flatMap(({ effect }, index) => {
    const share = laidOn[index];
    return share === undefined ? [] : [`${effect} was ${wordsOfShare(share)}`];
  });
  return [...shares, ...warnings];
}

/** The mask pictures of its steps, which the host reads while it renders. */
function masksOf({ steps, inputs }: Item): PlannedFile[] {
  return steps.flatMap(({ mask }, index) => {
    const sha256 = inputs.steps[index].mask?.picture;
    return mask?.picture !== undefined && typeof sha256 === 'string' ? [{ path: mask.picture, sha256 }] : [];
  });
}
