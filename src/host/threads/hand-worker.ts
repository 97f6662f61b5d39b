import { checkSeams } from '../../inspect/index.ts';
import { resampleTile } from '../../render/resample.ts';
import { checkResult } from '../../render/verdict.ts';
import type { HandAnswer, HandOrder, HandResults } from './hand-order.ts';
import { takeGift } from './worker-gift.ts';

const { line } = takeGift<HandOrder, HandAnswer>();

line.hear((order) => {
  try {
    line.say({ result: carryOut(order) });
  } catch (error) {
    line.say({ failed: String((error as Error)?.stack ?? error) });
  }
});

function carryOut(order: HandOrder): HandResults[HandOrder['kind']] {
  switch (order.kind) {
    case 'tile':
      return checkSeams(order.tile, order.layout);
    case 'result':
      return checkResult(order);
    case 'resample':
      return resampleTile(order.tile, order.grid);
  }
}
