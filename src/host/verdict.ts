import { allowOwn, checkSeams, type SeamReport } from '../inspect/index.ts';
import type { Grid } from '../repeat/grid.ts';
import { type Frame, unfoldFrame } from './frame.ts';

/**
 * The seam check of a result. The edges of an unfolded box are mirror lines of the artwork, where a
 * design may draw more hard edges than anywhere inside; so a result that seems open there is held
 * against the unfolded artwork, which closes whatever it shows.
 *
 * @param tile The artwork tile on `grid`, unchanged where the result was unfolded.
 */
export function checkResult(result: Frame, resultGrid: Grid, tile: Frame, grid: Grid): SeamReport {
  const { layout } = resultGrid.repeat;
  if (resultGrid === grid) return checkSeams(result, layout);
  const kin = {
    kinColumns: result.width > tile.width ? [tile.width] : [],
    kinRows: result.height > tile.height ? [tile.height] : [],
  };
  const report = checkSeams(result, layout, kin);
  return report.grade === 'closes'
    ? report
    : allowOwn(report, checkSeams(unfoldFrame(tile, grid), layout, kin));
}
