import { parentPort } from 'node:worker_threads';
import { checkSeams } from '../../inspect/index.ts';
import { resampleTile } from '../../render/resample.ts';
import { checkResult } from '../../render/verdict.ts';
import type { HandAnswer, HandOrder, HandResults } from './hand-order.ts';

const port = parentPort!;

port.on('message', (order: HandOrder) => {
  try {
    port.postMessage({ result: carryOut(order) } satisfies HandAnswer);
  } catch (error) {
    port.postMessage({ failed: String((error as Error)?.stack ?? error) } satisfies HandAnswer);
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
