import type { Frame } from '../../colour/frame.ts';
import { sharedSamples } from '../../colour/frame.ts';
import { cancelled } from '../../effect/setting.ts';
import { unfoldFrame } from '../../render/frame.ts';
import { type Rendered, renderTile } from '../../render/render.ts';
import type { RenderCrew } from '../../render/render-crew.ts';
import { renderPatch } from '../../render/render-patch.ts';
import type { Patch } from '../../repeat/patch.ts';
import { picturePaths, withPictures } from '../parameter-pictures.ts';
import { Crew } from '../threads/crew.ts';
import type { CrewTask } from '../threads/crew-task.ts';
import { ArtworkFields } from './artwork-fields.ts';
import { KeptLayers } from './kept-layers.ts';
import { SightMemory } from './memory.ts';
import { Models } from './models.ts';
import type { Seen, SightOrder } from './order.ts';
import { KeptPictureFiles } from './picture-files.ts';
import { Pictures } from './pictures.ts';
import { type LookPlan, planLook } from './plan.ts';
import type { Draw } from './pyramid.ts';
import { Stacks } from './stacks.ts';

const MEGABYTE = 1 << 20;
/** Models, layers and drawn artwork. An open tile and the threads come on top of it. */
const DEFAULT_MEGABYTES = 192;

export interface SightOptions {
  /** A crew to use and leave; by default one is hired, and dismissed in the end. */
  readonly crew?: Crew;
  /** MB that is kept of what was made for earlier looks; 192 where absent. */
  readonly megabytes?: number;
}

type Laid = Omit<Rendered, 'ranges'>;

/**
 * Renders what a screen shows: whole periods and parts of the plane. What effects prepared and painted is kept, so
 * that a change costs what it changes.
 */
export class Sight {
  readonly #crew: Crew;
  readonly #isOwnCrew: boolean;
  readonly #models: Models;
  readonly #layers: KeptLayers;
  readonly #pictures: Pictures;
  readonly #stacks: Stacks;
  readonly #files: KeptPictureFiles;
  readonly #artworkFields: ArtworkFields;

  constructor({ crew, megabytes = DEFAULT_MEGABYTES }: SightOptions = {}) {
    this.#crew = crew ?? new Crew();
    this.#isOwnCrew = crew === undefined;
    const memory = new SightMemory(megabytes * MEGABYTE);
    this.#models = new Models(this.#crew, memory);
    this.#layers = new KeptLayers(memory);
    this.#stacks = new Stacks(memory);
    this.#files = new KeptPictureFiles(memory, (sha256) => this.#models.forget(sha256));
    this.#artworkFields = new ArtworkFields(memory);
    this.#pictures = new Pictures(memory, (order) => this.#drawAlone(order));
  }

  /** What was done so far: models asked of effects, layers painted to be kept, layers that were there, stacks softened to be kept. */
  get counts(): Readonly<Record<'made' | 'painted' | 'served' | 'softened', number>> {
    return { made: this.#models.made, softened: this.#stacks.made, ...this.#layers.counts };
  }

  /**
   * Renders a look. Several may be under way: a newer one waits for none that was given up.
   *
   * @param signal Gives it up at once; threads stay warm, and what is wanted by others goes on.
   * @throws Fault of kind `effect` (stamped), `input` (a picture that a parameter names), `usage` or `cancelled`.
   */
  look(order: SightOrder, signal?: AbortSignal): Promise<Seen> {
    if (signal?.aborted) return Promise.reject(cancelled());
    const task = this.#crew.begin();
    const seeing = this.#see(order, task).finally(() => {
      this.#models.release(task);
      task.end();
    });
    if (!signal) return seeing;
    return new Promise((resolve, reject) => {
      const stop = () => {
        this.#models.release(task);
        task.giveUp();
        reject(cancelled());
      };
      signal.addEventListener('abort', stop, { once: true });
      seeing.then(resolve, reject).finally(() => signal.removeEventListener('abort', stop));
    });
  }

  /** Ends all looks and, where it is its own, the crew. */
  async close(): Promise<void> {
    if (this.#isOwnCrew) await this.#crew.close();
  }

  async #see(asked: SightOrder, task: CrewTask): Promise<Seen> {
    this.#files.want(picturePaths(asked.steps));
    const steps = await withPictures(asked.steps, this.#files, (bytes) => task.expect(bytes));
    if (task.hasFailed) throw cancelled();
    const order = { ...asked, steps };
    const plan = planLook(order);
    let passes = 0;
    const crew: RenderCrew = {
      prepare: (orders) => this.#models.prepare(orders, task),
      runPass: (pass, onRows) =>
        this.#stacks.serve(pass, passes++ === 0, (served) => task.runPass(served, onRows)),
    };
    const { frame, reports, laidOn, timings } = await (plan.patch
      ? this.#seePatch(order, plan, plan.patch, crew, (drawn) => task.gather(drawn))
      : this.#seePeriod(order, plan, crew, (drawn) => task.gather(drawn)));
    const { part, layout, isCoarse } = plan;
    return { frame, part, layout, isCoarse, reports, laidOn, timings };
  }

  #seePatch(order: SightOrder, plan: LookPlan, patch: Patch, crew: RenderCrew, draw: Draw): Promise<Laid> {
    const { artwork, ground, steps, masks = [], follow, light, quality } = order;
    const { grid } = plan;
    return renderPatch(
      { grid, steps, follow, light, quality, patch, artworkField: this.#artworkFields.of(order, grid) },
      {
        crew,
        textures: this.#layers,
        gather: async (around) => {
          const frame = await this.#pictures.artwork(artwork, ground, grid, around, draw);
          this.#stacks.begins(frame.pixels, frame.pixels);
          return frame;
        },
        gatherMask: async (step, around) =>
          masks[step] && this.#pictures.mask(masks[step], grid, around, draw),
      },
    );
  }

  async #seePeriod(order: SightOrder, { grid }: LookPlan, crew: RenderCrew, draw: Draw): Promise<Laid> {
    const { artwork, ground, steps, masks = [], follow, light, quality } = order;
    const [width, height] = [grid.tileWidth, grid.tileHeight];
    const whole: Patch = { x: 0, y: 0, width, height };
    // Rendering works in the tile's memory, which therefore is a copy; it is filled while the effects prepare.
    const tile: Frame = { pixels: sharedSamples(4 * width * height, 8), width, height };
    const drawing = this.#pictures.artwork(artwork, ground, grid, whole, draw).then(({ pixels }) => {
      tile.pixels.set(pixels);
      this.#stacks.begins(tile.pixels, pixels);
    });
    const drawingMasks = Promise.all(
      steps.map((_, step) => masks[step] && this.#pictures.mask(masks[step], grid, whole, draw)),
    );
    // Until they are awaited nobody hears of a failure.
    for (const one of [drawing, drawingMasks]) one.catch(() => {});
    const rendered = await renderTile(
      { grid, tile, steps, follow, light, quality, artworkField: this.#artworkFields.of(order, grid) },
      { crew, masks: drawingMasks, memory: { textures: this.#layers }, whenFree: drawing },
    );
    return { ...rendered, frame: unfoldFrame(rendered.frame, grid) };
  }

  async #drawAlone(order: Parameters<Draw>[0]): Promise<void> {
    const task = this.#crew.begin();
    try {
      await task.gather(order);
    } finally {
      task.end();
    }
  }
}
