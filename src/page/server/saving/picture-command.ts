import { Fault } from '../../../fault.ts';
import type { Laying, Work } from '../../words/work.ts';
import type { Desk } from '../desk.ts';
import { laidSteps, renderedSteps } from '../looks/laid-steps.ts';
import { withOpenedPaths } from '../opened/opened-pictures.ts';
import { densityWord, pathWord, sizeWord, type Words } from './command-words.ts';
import { effectWords, layingWords, setWords } from './effect-words.ts';
import { KeptFiles } from './kept-files.ts';
import { ALONE_DENSITY, workGrid } from './work-grid.ts';

/** A picture that is wanted of a work. */
export interface PictureOrder {
  readonly work: Work;
  readonly laying: Laying;
  /** Pixels per mm; the tile's own where absent. */
  readonly density?: number;
  readonly fit?: boolean;
}

/**
 * The command that lays what is on the page, but for where it goes. Files that it needs are written beside the work.
 *
 * @throws Fault (usage) where nothing is laid, or the repeat misses whole pixels.
 */
export async function tileCommand(desk: Desk, order: PictureOrder): Promise<Words> {
  const { work, laying, density, fit = false } = order;
  requireLaid(desk, laying);
  const { grid, isFitted } = workGrid(work, desk.artworks, density, fit);
  const files = new KeptFiles(desk);
  const tile =
    work.tile === undefined ? await files.ground(work.ground, grid) : desk.artworks.pathOf(work.tile);
  const effect = effectWords(desk.shelf, withOpenedPaths(desk, laying, pathWord));
  const target = effect ? laidSteps(laying)[0].step.effect : pathWord(await files.recipe(laying, work, grid));
  // A ground is drawn at the pixels that are wanted.
  const isResampled = density !== undefined && work.tile !== undefined;
  return [
    ...['lay', target, pathWord(tile)],
    ...['--layout', work.layout, '--size', sizeWord(work.size)],
    ...(isResampled ? ['--at', densityWord(density)] : []),
    ...(isFitted && work.tile !== undefined ? ['--fit'] : []),
    ...(effect ?? []),
    ...desk.flags,
  ];
}

/** The commands that make the textures alone, one for each step: no layer by hand holds two. */
export function textureCommands(
  desk: Desk,
  order: PictureOrder,
): { readonly effect: string; readonly words: Words }[] {
  const { work, laying, density, fit = false } = order;
  requireLaid(desk, laying);
  const { grid, isFitted } = workGrid(work, desk.artworks, density, fit);
  const at = density ?? (work.tile === undefined ? ALONE_DENSITY : 1 / grid.mmPerPixelX);
  return laidSteps(withOpenedPaths(desk, laying, pathWord)).map((laid) => {
    const { effect, preset, seed, paper } = laid.step;
    const words = [
      ...['make', effect, '--layer', '--layout', work.layout, '--size', sizeWord(work.size)],
      ...['--dpi', densityWord(at), ...(isFitted || density === undefined ? ['--fit'] : [])],
      ...(preset === undefined ? [] : ['--preset', preset]),
      ...(setWords(desk.shelf, laid) ?? refuseRounded(effect)),
      ...(seed === '1' ? [] : [`--seed=${seed}`]),
      ...(paper === undefined ? [] : ['--paper', paper]),
      ...layingWords(laying),
      ...desk.flags,
    ];
    return { effect, words };
  });
}

function requireLaid(desk: Desk, laying: Laying): void {
  // Whatever is wrong with a step is said before anything is written.
  if (renderedSteps(desk.shelf, withOpenedPaths(desk, laying)).length > 0) return;
  throw new Fault({
    kind: 'usage',
    expected: 'at least one texture',
    subject: 'what is laid',
    received: 'none',
    remedy: 'Lay one first.',
    saying: 'Nothing is laid, so there is nothing to save.',
  });
}

function refuseRounded(effect: string): never {
  throw new Fault({
    kind: 'usage',
    expected: 'values of nine decimals at most',
    subject: effect,
    received: 'one with more',
    remedy: 'Round it.',
  });
}
