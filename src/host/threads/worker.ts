import { callContext, catchStrays } from './calls.ts';
import { carryOut } from './carry-out.ts';
import type { Answer, Posted } from './messages.ts';
import { Pulse } from './pulse.ts';
import { plainFault } from './worker-fault.ts';
import { type PaintGift, takeGift } from './worker-gift.ts';
import { turnOutputAside } from './worker-output.ts';

// A plugin's stack traces then name the lines its author wrote.
process.setSourceMapsEnabled(true);

const { line, pulse: cells, ownModules, megabytes } = takeGift<Posted, Answer, PaintGift>();
const pulse = new Pulse(cells);
turnOutputAside();

catchStrays(({ task, isEnding, fault }) =>
  line.say({ kind: 'stray', task, isEnding, fault: plainFault(fault) }),
);

line.hear(({ task, order }) => {
  // The listener must return at once: an error thrown later belongs to the call it came from.
  void callContext.run({ task: task.id }, async () => {
    try {
      const result = await carryOut(order, {
        pulse,
        ownModules,
        megabytes,
        isStopped: () => Atomics.load(task.stop, 0) !== 0,
        onProgress: (done) => line.say({ kind: 'progress', done }),
      });
      line.say({ kind: 'done', result });
    } catch (error) {
      line.say({ kind: 'fault', fault: plainFault(error) });
    }
  });
});
