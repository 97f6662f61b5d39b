import type { Frame } from '../colour/frame.ts';
import {
  allowOwn,
  type CheckOptions,
  checkSeams,
  type InspectedPicture,
  type SeamReport,
} from '../inspect/index.ts';
import type { Grid } from '../repeat/grid.ts';
import { isReflected, type Layout } from '../repeat/layout.ts';
import { unfoldFrame } from './frame.ts';

/** A result and the artwork it was made of, to be held against each other. */
export interface ResultCheck {
  readonly result: Frame & Pick<InspectedPicture, 'isOpaque'>;
  readonly resultGrid: Grid;
  /** The artwork tile on `grid`, unchanged where the result was unfolded. */
  readonly artwork: Frame;
  readonly grid: Grid;
}

/** Does what `checkSeams` does, wherever. */
export type SeamCheck = (
  picture: InspectedPicture,
  layout: Layout,
  options?: CheckOptions,
) => Promise<SeamReport>;

const checkHere: SeamCheck = async (...order) => checkSeams(...order);

/**
 * The seam check of a result. The edges of an unfolded box are mirror lines of the artwork, where a
 * design may draw more hard edges than anywhere inside; so a result that seems open there is held
 * against the unfolded artwork, which closes whatever it shows.
 */
export async function checkResult(
  { result, resultGrid, artwork, grid }: ResultCheck,
  check = checkHere,
): Promise<SeamReport> {
  const { layout } = resultGrid.repeat;
  const isUnfolded = isReflected(grid.repeat.layout) && !isReflected(layout);
  if (!isUnfolded) return check(result, layout);
  const kin = {
    kinColumns: result.width > artwork.width ? [artwork.width] : [],
    kinRows: result.height > artwork.height ? [artwork.height] : [],
  };
  const report = await check(result, layout, kin);
  if (report.grade === 'closes') return report;
  return allowOwn(report, await check(unfoldFrame(artwork, grid), layout, kin));
}
