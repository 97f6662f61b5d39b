import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { Fault } from '../../../fault.ts';
import { byHandPaths } from '../../../host/by-hand.ts';
import type { SaveOrder, Saving } from '../../words/save.ts';
import type { Desk } from '../desk.ts';
import { lineOf, pathWord, type Words } from './command-words.ts';
import { fileName } from './file-name.ts';
import { textureCommands, tileCommand } from './picture-command.ts';
import { runCommand } from './run-command.ts';
import { saveCollection } from './save-collection.ts';
import { saveRecipe } from './save-recipe.ts';
import { type RenderFacts, wordsOfRender } from './saved-words.ts';
import { workGrid } from './work-grid.ts';

/** Savings that wait at the same time. */
const MOST_WAITING = 20;

const PICTURES = ['.png', '.tif', '.tiff', '.jpg', '.jpeg'];

/** What one saving does. */
interface Plan {
  /** Files that it writes, or may. */
  readonly outs: readonly string[];
  readonly line: string;
  run(signal: AbortSignal, onProgress: (done: number) => void): Promise<string[]>;
}

/** Saves what is on the page, one thing after another, while work goes on. */
export class Saver {
  readonly #desk: Desk;
  readonly #stops = new Map<string, AbortController>();
  #count = 0;
  #turn: Promise<unknown> = Promise.resolve();

  constructor(desk: Desk) {
    this.#desk = desk;
  }

  /**
   * Begins a saving; how it goes is told in the news.
   *
   * @throws Fault where it cannot begin: of a name, a size, or a step.
   */
  async begin(order: SaveOrder): Promise<Saving> {
    if (this.#stops.size >= MOST_WAITING) throw tooMany();
    const plan = await planOf(this.#desk, order);
    const { what } = order;
    const name = plan.outs[0].slice(this.#desk.folder.home.length + 1);
    const saving: Saving = {
      ...{ id: `save-${++this.#count}`, what, name },
      ...{ done: 0, state: 'under way', words: [], command: plan.line },
    };
    if (!order.overwrite && what !== 'collection' && (await anyThere(plan.outs)))
      return { ...saving, state: 'would replace', words: [`${name} is there already.`] };
    const stop = new AbortController();
    this.#stops.set(saving.id, stop);
    const run = this.#turn.then(() => this.#run(saving, plan, stop.signal));
    this.#turn = run;
    return saving;
  }

  /** Stops a saving; one that is over stays as it is. */
  stop(id: string): void {
    this.#stops.get(id)?.abort();
  }

  async close(): Promise<void> {
    for (const stop of this.#stops.values()) stop.abort();
    await this.#turn;
  }

  async #run(saving: Saving, plan: Plan, signal: AbortSignal): Promise<void> {
    const tell = (change: Partial<Saving>) =>
      this.#desk.news.tell({ kind: 'saving', saving: { ...saving, ...change } });
    try {
      const words = await plan.run(signal, (done) => tell({ done }));
      tell({ state: 'saved', done: 1, words });
    } catch (error) {
      tell({ state: stateOf(error), words: [(error as Error).message] });
    } finally {
      this.#stops.delete(saving.id);
    }
  }
}

function stateOf(error: unknown): Saving['state'] {
  if (!Fault.is(error)) return 'failed';
  if (error.kind === 'cancelled') return 'stopped';
  return error.kind === 'output' && /name that is free/.test(error.expected) ? 'would replace' : 'failed';
}

async function planOf(desk: Desk, order: SaveOrder): Promise<Plan> {
  switch (order.what) {
    case 'tile':
      return planTile(desk, order);
    case 'texture':
      return planTexture(desk, order);
    case 'recipe':
      return planRecipe(desk, order);
    case 'collection':
      return planCollectionFile(desk, order);
  }
}

async function planTile(desk: Desk, { name, work, density, fit, overwrite }: SaveOrder): Promise<Plan> {
  const out = join(desk.folder.home, fileName(name, PICTURES));
  const command = await tileCommand(desk, { work, laying: work.laying, density, fit });
  const words = [...command, '--out', pathWord(out), ...(overwrite ? ['--overwrite'] : [])];
  return {
    outs: [out],
    line: lineOf(words),
    run: async (signal, onProgress) => [...(await runOne(desk, words, signal, onProgress))],
  };
}

/** One set of pictures for each step: no layer by hand holds two. */
async function planTexture(desk: Desk, { name, work, density, fit, overwrite }: SaveOrder): Promise<Plan> {
  const out = join(desk.folder.home, fileName(name, ['.png', '.tif', '.tiff']));
  const made = textureCommands(desk, { work, laying: work.laying, density, fit });
  const commands = made.map(({ effect, words }, index) => {
    const place =
      made.length === 1 ? out : out.replace(/\.\w+$/, (ending) => `-${index + 1}-${effect}${ending}`);
    return { place, words: [...words, '--out', pathWord(place), ...(overwrite ? ['--overwrite'] : [])] };
  });
  return {
    outs: [out, ...commands.flatMap(({ place }) => byHandPaths(place))],
    line: commands.map(({ words }) => lineOf(words)).join(' && '),
    async run(signal, onProgress) {
      const said: string[] = [];
      for (const [index, { words }] of commands.entries()) {
        const share = (done: number) => onProgress((index + done) / commands.length);
        said.push(...(await runOne(desk, words, signal, share)));
      }
      return said;
    },
  };
}

async function runOne(
  { trust }: Desk,
  words: Words,
  signal: AbortSignal,
  onProgress: (done: number) => void,
): Promise<string[]> {
  return wordsOfRender((await runCommand(words, { trust, signal, onProgress })) as RenderFacts);
}

async function planRecipe(desk: Desk, { name, work, density, overwrite = false }: SaveOrder): Promise<Plan> {
  const path = join(desk.folder.home, fileName(name, ['.json']));
  const { laying, resists } = work;
  const { grid } = workGrid(work, desk.artworks, density, true);
  const tile = work.tile === undefined ? 'TILE.png' : pathWord(desk.artworks.pathOf(work.tile));
  return {
    outs: [path],
    line: lineOf(['lay', pathWord(path), tile, '--layout', work.layout, ...desk.flags]),
    async run() {
      const beside = await saveRecipe(desk, { path, laying, resists, grid, overwrite });
      return beside.map((one) => `its resist lies beside it as ${one.slice(desk.folder.home.length + 1)}`);
    },
  };
}

async function planCollectionFile(desk: Desk, { name, work, trials }: SaveOrder): Promise<Plan> {
  const path = join(desk.folder.home, fileName(name, ['.json']));
  return {
    outs: [path],
    line: lineOf(['collect', 'plan', pathWord(path), ...desk.pluginFlags]),
    run: () => saveCollection(desk, { path, work, trials }),
  };
}

async function anyThere(paths: readonly string[]): Promise<boolean> {
  for (const path of paths) {
    const isThere = await stat(path).then(
      () => true,
      () => false,
    );
    if (isThere) return true;
  }
  return false;
}

function tooMany(): Fault {
  return new Fault({
    kind: 'usage',
    expected: `at most ${MOST_WAITING} savings at a time`,
    subject: 'saving',
    received: 'one more',
    remedy: 'Wait for some, or stop them.',
  });
}
