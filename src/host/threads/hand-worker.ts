import { Fault } from '../../fault.ts';
import { checkEdges, checkSeams, closingLayouts } from '../../inspect/index.ts';
import { closeChange, closePicture, divideLight, planClose, slowLight } from '../../join/index.ts';
import { resampleTile } from '../../render/resample.ts';
import { checkResult } from '../../render/verdict.ts';
import { giveBack } from './give-back.ts';
import type { HandAnswer, HandOrder, HandResults } from './hand-order.ts';
import { takeGift } from './worker-gift.ts';

/** px. What the check of a smaller picture leaves behind is hardly anything. */
const WORTH_GIVING_BACK = 16e6;

const { line } = takeGift<HandOrder, HandAnswer>();

line.hear(async (order) => {
  try {
    line.say({ result: await carryOut(order) });
  } catch (error) {
    if (Fault.is(error)) line.say({ fault: error.toJSON() });
    else line.say({ failed: String((error as Error)?.stack ?? error) });
  }
  if (order.kind === 'edges' && order.picture.width * order.picture.height > WORTH_GIVING_BACK) giveBack();
});

async function carryOut(order: HandOrder): Promise<HandResults[HandOrder['kind']]> {
  switch (order.kind) {
    case 'tile':
      return checkSeams(order.tile, order.layout);
    case 'edges':
      return checkEdges(order.picture, order.layout, order.axis, order.options);
    case 'closing':
      return closingLayouts(order.picture);
    case 'result':
      return checkResult(order);
    case 'resample':
      return resampleTile(order.tile, order.grid);
    case 'light': {
      const light = slowLight(order.picture);
      return { light, samples: order.divides ? divideLight(order.picture, light) : order.picture.samples };
    }
    case 'plan close':
      return planClose(order.picture, order.order);
    case 'close':
      return closePicture(order.picture, order.plan);
    case 'change':
      return closeChange(order.picture, order.closed);
  }
}
