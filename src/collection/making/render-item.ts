import { readPictureValue } from '../../effect/picture-value.ts';
import { type Laid, lay } from '../../host/lay.ts';
import { pictureValues } from '../../host/parameter-pictures.ts';
import type { Crew } from '../../host/threads/crew.ts';
import type { Hands } from '../../host/threads/hands.ts';
import { wordsOfShare } from '../../render/mask-words.ts';
import type { TextureKeeper } from '../../render/textures.ts';
import { formatLayout } from '../../repeat/layout.ts';
import { inShort, type Sidecar } from '../disk/sidecar.ts';
import { type PlannedFile, whileUnchanged } from '../disk/steady.ts';
import type { PictureInputs } from '../plan/identity.ts';
import type { Item } from '../plan/item.ts';
import type { LentBlocks } from './lent-blocks.ts';
import type { OpenTile } from './tile-store.ts';

export interface RenderTools {
  readonly crew: Crew;
  readonly hands: Hands;
  readonly textures?: TextureKeeper;
  /** Memory for the pictures under way; all of it goes back once a render is well over. */
  readonly lent: LentBlocks;
  readonly signal?: AbortSignal;
}

/** A finished picture that has yet to be put in its place. */
export interface RenderedItem {
  readonly bytes: number;
  readonly facts: Pick<Sidecar, 'seams' | 'tileSeams' | 'notes' | 'reports' | 'laidOn'> & {
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
  { crew, hands, textures, lent, signal }: RenderTools,
): Promise<RenderedItem> {
  const { grid, steps, follow, light, quality } = item;
  const laid = await whileUnchanged(picturesOf(item), () =>
    lay(
      {
        artwork: tile.frame,
        isShared: true,
        grid,
        steps,
        follow,
        light,
        quality,
        out: path,
        overwrite: true,
      },
      {
        crew,
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

/** The pictures of its steps, masks and parameters, which the host reads while it renders. */
function picturesOf({ steps, inputs }: Item): PlannedFile[] {
  return steps.flatMap((step, index) => {
    const { mask, parameters } = inputs.steps[index];
    const sha256 = mask?.picture;
    const path = step.mask?.picture;
    const masks = path !== undefined && typeof sha256 === 'string' ? [{ path, sha256 }] : [];
    const named = pictureValues(step).map(([name, value]) => ({
      path: readPictureValue(value).path,
      sha256: (parameters[name] as PictureInputs).sha256,
    }));
    return [...masks, ...named];
  });
}
