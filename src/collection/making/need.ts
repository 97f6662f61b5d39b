import { artworkBytes, planesRead } from '../../effect/artwork.ts';
import { findEffect, type Shelf } from '../../host/plugins/shelf.ts';
import { isArtworkRead, spaceOf } from '../../render/job.ts';
import { stackBytes } from '../../render/soften.ts';
import { isReflected } from '../../repeat/layout.ts';
import { type Item, pixelsOf } from '../plan/item.ts';

/** The program itself with its libraries, as measured: Node 20 and the picture engine. */
const PROGRAM_BYTES = 110e6;
/** A thread that paints or checks, with an effect loaded, its bands and what its heap has not yet swept: as measured. */
const THREAD_BYTES = 60e6;
/** The encoder, and what a check gathers, for each render. */
const ROUND_IT_BYTES = 16e6;
/** A model of an effect that was not yet prepared; measured once it was. */
const MODEL_BYTES = 16e6;

/** How many threads paint, and how many items are under way at once. */
export interface Staff {
  readonly workers: number;
  readonly places: number;
}

/** What a staff takes before it has anything to do: a painter for every place, and a hand for every worker. */
export function staffBytes({ workers, places }: Staff): number {
  return PROGRAM_BYTES + (workers + places) * THREAD_BYTES;
}

/** Of the budget that may go into threads; where all that were asked take more, there are fewer. */
const STAFF_SHARE = 0.75;

/**
 * The staff for a budget. One item more than there are workers fills the gaps while another is read or
 * written; where memory is short, one at a time does.
 */
export function staffFor(workers: number, budget: number): Staff {
  for (let count = workers; count >= 1; count--) {
    const staff = { workers: count, places: count + 1 };
    if (staffBytes(staff) <= STAFF_SHARE * budget) return staff;
  }
  return { workers: 1, places: 1 };
}

const CHANNELS = 4;

/** Bytes of an item's tile, decoded (and resampled, which needs both for a while). */
export function tileBytes({ tile, grid }: Item): number {
  const sample = tile.bits / 8;
  const file = tile.width * tile.height * CHANNELS * sample;
  const own = grid.tileWidth * grid.tileHeight * CHANNELS * sample;
  return file === own ? own : own + file;
}

/** Bytes that an item takes while it is made, besides its tile and the threads. */
export function workBytes(item: Item, shelf: Shelf): number {
  const frame = pixelsOf(item) * CHANNELS * (item.tile.bits / 8);
  const planes = item.steps.map(({ effect }) => findEffect(shelf, effect).effect.planes);
  const shifts = planes.some((names) => names.includes('shift'));
  const runs = planes.some((names) => names.includes('bleed'));
  const looksAround = item.steps.some(
    ({ declares }) => planesRead(declares).length > 0 && declares.planes.includes('relief'),
  );
  const keepsOriginal = item.steps.length > 1 && item.steps.some(({ mask }) => mask?.colours);
  // An unfolded result that seems open is held against the unfolded artwork.
  const again = isReflected(item.grid.repeat.layout) && spaceOf(item) === 'box';
  const frames = 1 + Number(shifts) + Number((shifts || looksAround) && keepsOriginal) + Number(again);
  const masks = item.steps.filter(({ mask }) => mask?.picture).length * pixelsOf(item) * 2;
  const stack = runs ? stackBytes(pixelsOf(item)) : 0;
  const read = isArtworkRead(item.steps) ? artworkBytes(item.grid.box) : 0;
  return frame * frames + stack + read + masks + item.steps.length * MODEL_BYTES + ROUND_IT_BYTES;
}
