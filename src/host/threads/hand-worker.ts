import { parentPort } from 'node:worker_threads';
import { checkResult } from '../../render/verdict.ts';
import { checkSeams, type SeamReport } from '../../inspect/index.ts';
import type { HandAnswer, HandOrder, HandResults } from './hand-order.ts';
import { resampleTile } from '../../render/resample.ts';
import type { Verdict } from '../../collection/disk/sidecar.ts';

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
      return inShort(checkSeams(order.tile, order.layout));
    case 'result': {
      const { result, resultGrid, tile, grid, isSameGrid } = order;
      // Sent to another thread, two grids that were one are two.
      return inShort(checkResult(result, isSameGrid ? grid : resultGrid, tile, grid));
    }
    case 'resample':
      return resampleTile(order.tile, order.grid);
  }
}

function inShort({ closes, summary }: SeamReport): Verdict {
  return { closes, summary };
}
