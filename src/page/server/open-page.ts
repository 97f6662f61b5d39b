import { packageVersion } from '../../host/code/root.ts';
import type { Shelf } from '../../host/plugins/shelf.ts';
import type { Limits } from '../../host/threads/limits.ts';
import type { Laying, WorkStep } from '../words/work.ts';
import { Desk } from './desk.ts';
import type { ArtworkWishes } from './opened/artwork-facts.ts';
import { ArtworkWatch } from './opened/artwork-watch.ts';
import { layOut } from './opened/lay-out.ts';
import { type ToOpen, whatToOpen } from './opened/what-to-open.ts';
import { type LivePage, servePage } from './start.ts';
import { WatchedEffect, type WatchedFolder } from './watched-effect.ts';

/** What a page is opened with. */
export interface PageWishes {
  readonly shelf: Shelf;
  /** The places of plugins as the person named them. */
  readonly plugins?: readonly string[];
  /** True where the person vouches for them. */
  readonly trust?: boolean;
  /** A picture, a recipe, a collection file or a folder; a bare page where absent. */
  readonly place?: string;
  /** What is said of the pictures. */
  readonly artwork?: ArtworkWishes;
  /** Where things are saved to; beside what was opened where absent. */
  readonly home?: string;
  readonly port?: number;
  /** A plugin that is followed while it is written, and how it is laid at first. */
  readonly watched?: WatchedFolder;
  readonly laid?: Pick<WorkStep, 'preset'> & Partial<Pick<Laying, 'seed' | 'light'>>;
  readonly limits?: Partial<Limits>;
  readonly workers?: number;
}

/**
 * Opens the live page: reads what was asked for, and serves it to this computer alone.
 *
 * @throws Fault (input or usage).
 */
export async function openLivePage(wishes: PageWishes): Promise<LivePage> {
  const { shelf, plugins = [], trust, place, artwork = {}, port, limits, workers, watched } = wishes;
  const toOpen: ToOpen =
    place === undefined
      ? { kind: 'nothing', paths: [], home: process.cwd(), notes: [] }
      : await whatToOpen(place);
  const home = wishes.home ?? toOpen.home;
  const desk = new Desk({ shelf, plugins, trust, home, version: packageVersion, limits, workers });
  try {
    const followed = watched && (await WatchedEffect.open(desk, watched));
    await layOut(desk, toOpen, artwork, watchedLaying(desk, wishes.laid));
    const watch = new ArtworkWatch(desk);
    const page = await servePage(desk, port);
    watch.begin();
    followed
      ?.follow()
      .catch((error) => console.error(`tenter: the plugin is no longer watched: ${error.message}`));
    return {
      address: page.address,
      async close() {
        watch.close();
        followed?.close();
        await page.close();
      },
    };
  } catch (error) {
    await desk.close();
    throw error;
  }
}

function watchedLaying({ watched }: Desk, laid: PageWishes['laid'] = {}): Laying | undefined {
  const { preset, seed = '1', light } = laid;
  return watched === undefined ? undefined : { steps: [{ id: 's1', effect: watched, preset }], seed, light };
}
