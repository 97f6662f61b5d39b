import type { ParameterValue } from '../../effect/parameter.ts';
import { cancelled } from '../../effect/setting.ts';
import { Fault } from '../../fault.ts';
import { readPicture } from '../../picture/index.ts';
import type { RenderStep } from '../../render/step.ts';
import { layTile, type MakeRequest, makeTile, type RenderReport } from '../lay-tile.ts';
import { resolveSteps } from '../plugins/resolve-steps.ts';
import { openShelf, type Shelf, type ShelvedEffect } from '../plugins/shelf.ts';
import type { Limits } from '../threads/limits.ts';

/** What to draw, again and again, while an effect is written. */
export interface PreviewRequest extends Pick<MakeRequest, 'layout' | 'light' | 'quality' | 'out'> {
  /** `#rrggbb` of the bare paper or cloth; white where absent. */
  readonly paper?: string;
  /** The folder of the effect. The user has agreed that it may run. */
  readonly folder: string;
  /** Which effect of the folder; needed where it has several. */
  readonly effect?: string;
  readonly preset?: string;
  readonly values: (shelf: Shelf, effect: string) => Readonly<Record<string, ParameterValue>>;
  readonly seed: string;
  /** Names that the effect must not have. */
  readonly taken: readonly string[];
  /** An artwork to lay it over; over a ground of one colour where absent. */
  readonly tile?: string;
  readonly size?: MakeRequest['size'];
  /** Pixels per mm. */
  readonly density?: number;
  readonly ground: (effect: ShelvedEffect) => string;
  readonly limits: Partial<Limits>;
  readonly workers?: number;
}

/** One drawing. */
export interface Preview {
  readonly step: RenderStep;
  readonly report: RenderReport;
  /** ms of the whole, loading included. */
  readonly took: number;
  /** ms of it that finding, compiling and loading the effect took. */
  readonly loading: number;
  /** The files that the effect is made of. */
  readonly files: readonly string[];
  readonly pixels: Uint8Array | Uint16Array;
}

/** Side of a preview in mm where nothing is said, and its pixels per mm. */
const DEFAULT_SIDE = 100;
const DEFAULT_DENSITY = 5;

/**
 * Loads the effect of a folder afresh and draws it: nothing is kept from one drawing to the next, neither
 * code nor threads.
 *
 * @throws Fault of any kind; the last picture then stands. Kind `cancelled` where `signal` asked.
 */
export async function drawPreview(request: PreviewRequest, signal: AbortSignal): Promise<Preview> {
  const started = performance.now();
  const { folder, limits } = request;
  const options = { consent: { trust: true }, builtIn: false, limits, signal };
  const shelf = await openShelf([folder], options);
  if (signal.aborted) throw cancelled();
  const shelved = pickEffect(shelf, request);
  const { name } = shelved.effect;
  const parameters = request.values(shelf, name);
  const { preset, paper, seed, workers } = request;
  const [step] = resolveSteps(shelf, [{ effect: name, preset, parameters, paper }], seed);
  const loading = performance.now() - started;
  const report = await render(request, step, shelved, { limits, workers, signal, measure: true });
  const { pixels } = await readPicture(report.out);
  return { step, report, took: performance.now() - started, loading, files: shelved.files, pixels };
}

function render(
  { tile, layout, light, size, density, quality, out, ground }: PreviewRequest,
  step: RenderStep,
  shelved: ShelvedEffect,
  options: Parameters<typeof makeTile>[1],
): Promise<RenderReport> {
  const sources = [...shelved.files, ...shelved.presets.map(({ file }) => file)];
  const shared = { layout, light, steps: [step], quality, out, overwrite: true, fit: true, sources };
  if (tile !== undefined) return layTile({ ...shared, tile, size, density }, options);
  const side = { width: DEFAULT_SIDE, height: DEFAULT_SIDE };
  const made = { size: size ?? side, density: density ?? DEFAULT_DENSITY, ground: ground(shelved) };
  return makeTile({ ...shared, ...made }, options);
}

function pickEffect({ effects, faults }: Shelf, { effect, folder, taken }: PreviewRequest): ShelvedEffect {
  const wanted = effect === undefined ? undefined : effects.get(effect);
  const found = wanted ?? (effect === undefined && effects.size === 1 ? [...effects.values()][0] : undefined);
  if (found && !taken.includes(found.effect.name)) return found;
  if (found) {
    throw new Fault({
      kind: 'effect',
      expected: 'a name of its own',
      subject: found.place,
      received: `"${found.effect.name}", which an effect of the host has already`,
      remedy: 'Give it another name.',
    });
  }
  if (faults.length > 0) throw faults[0];
  throw new Fault({
    kind: 'usage',
    expected: effect === undefined ? 'one effect' : `the effect "${effect}"`,
    subject: folder,
    received: [...effects.keys()].join(', '),
    remedy: 'Say which with --effect.',
  });
}
