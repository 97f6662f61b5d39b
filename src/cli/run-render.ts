import type { LayRequest, RenderProgress, RenderReport } from '../host/lay-tile.ts';
import type { Shelf } from '../host/plugins/shelf.ts';
import { sourcesOf } from '../host/plugins/sources-of.ts';
import type { Follow } from '../render/follow.ts';
import { SKETCH_DENSITY } from '../render/sketch-grid.ts';
import type { RenderStep } from '../render/step.ts';
import type { RenderFlags } from './options.ts';
import { outputPath } from './output-path.ts';
import { printRender } from './print-render.ts';
import { runLong } from './run-long.ts';

/** What a command renders, once it is looked up. */
export interface RenderWork {
  readonly title: string;
  readonly shelf: Shelf;
  readonly steps: readonly RenderStep[];
  /** What the picture is named after where nobody names it. */
  readonly names: { readonly target: string; readonly tile?: string; readonly dpi?: number };
  /** Files that it is made from besides the plugins. */
  readonly sources?: readonly string[];
  readonly follow?: Follow;
  /** Where the light comes from; the usual one where absent. */
  readonly light?: LayRequest['light'];
  readonly screens?: LayRequest['screens'];
}

/** What all renders are asked in the same way. */
type Asked = Pick<
  LayRequest,
  | 'layout'
  | 'fit'
  | 'steps'
  | 'follow'
  | 'light'
  | 'quality'
  | 'densityLimit'
  | 'out'
  | 'overwrite'
  | 'sources'
  | 'screens'
>;

/** The one way from what was looked up to a picture and words about it: renders, checks, writes and says. */
export async function runRender(
  flags: RenderFlags,
  { title, shelf, steps, names, sources = [], follow = flags.follow, light, screens }: RenderWork,
  render: (asked: Asked, progress: RenderProgress) => Promise<RenderReport>,
): Promise<void> {
  const { layout, fit, overwrite, sketch, seed, json } = flags;
  const asked: Asked = {
    ...{ layout, fit, steps, follow, light, overwrite, screens },
    quality: sketch ? 'sketch' : 'finished',
    densityLimit: sketch ? SKETCH_DENSITY : undefined,
    out: outputPath(flags.out, names.tile, { ...flags, ...names }),
    sources: [...sources, ...sourcesOf(shelf, steps)],
  };
  const report = await runLong(flags, (progress) => render(asked, progress));
  printRender({ title, steps, seed, report, json });
}
