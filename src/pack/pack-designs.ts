import { Fault } from '../fault.ts';
import type { RenderProgress } from '../host/lay-tile.ts';
import type { Shelf } from '../host/plugins/shelf.ts';
import type { Design } from './design.ts';
import { makeParcel, type Parcel, type ParcelWish } from './make-parcel.ts';

/** What came of packing several designs. */
export interface Packed {
  readonly made: readonly Parcel[];
  readonly failed: readonly { readonly name: string; readonly fault: Fault }[];
}

export interface PackProgress extends RenderProgress {
  /** Told of each parcel when it stands. */
  readonly onParcel?: (parcel: Parcel) => void;
}

/**
 * Packs designs one after the other; one that fails keeps none of the others from it.
 *
 * @throws Fault (usage) for two designs of one name, before anything is made; Fault (cancelled); of a single design,
 *   whatever is wrong with it.
 */
export async function packDesigns(
  designs: readonly Design[],
  wish: ParcelWish,
  shelf: Shelf,
  { onParcel, onProgress, ...progress }: PackProgress = {},
): Promise<Packed> {
  refuseTwins(designs);
  const made: Parcel[] = [];
  const failed: Packed['failed'][number][] = [];
  for (const [index, design] of designs.entries()) {
    try {
      const parcel = await makeParcel(design, wish, shelf, {
        ...progress,
        onProgress: (done, what) => onProgress?.((index + done) / designs.length, `${design.name}: ${what}`),
      });
      made.push(parcel);
      onParcel?.(parcel);
    } catch (fault) {
      if (!Fault.is(fault) || fault.kind === 'cancelled' || designs.length === 1) throw fault;
      failed.push({ name: design.name, fault });
    }
  }
  return { made, failed };
}

/** Names are compared as a disk that does not tell capitals apart would. */
function refuseTwins(designs: readonly Design[]): void {
  const names = new Map<string, Design>();
  for (const design of designs) {
    const key = design.name.toLowerCase();
    const other = names.get(key);
    if (other)
      throw new Fault({
        kind: 'usage',
        expected: 'another name for each parcel',
        subject: 'what to pack',
        received: `two designs called "${design.name}": ${other.tile.path} and ${design.tile.path}`,
        remedy: 'Rename one, or pack them into folders of their own with --out.',
      });
    names.set(key, design);
  }
}
