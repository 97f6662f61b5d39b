import { parentPort, workerData } from 'node:worker_threads';
import { callContext, catchStrays } from './calls.ts';
import { carryOut } from './carry-out.ts';
import type { Answer, Posted } from './messages.ts';
import { Pulse } from './pulse.ts';
import { plainFault } from './worker-fault.ts';

// A plugin's stack traces then name the lines its author wrote.
process.setSourceMapsEnabled(true);

const port = parentPort!;
const pulse = new Pulse(workerData as Int32Array);
const say = (answer: Answer) => port.postMessage(answer);

catchStrays((task, fault) => say({ kind: 'stray', task, fault: plainFault(fault) }));

port.on('message', ({ task, order }: Posted) => {
  // The listener must return at once: an error thrown later belongs to the call it came from.
  void callContext.run({ task: task.id }, async () => {
    try {
      const result = await carryOut(order, {
        pulse,
        isStopped: () => Atomics.load(task.stop, 0) !== 0,
        onProgress: (done) => say({ kind: 'progress', done }),
      });
      say({ kind: 'done', result });
    } catch (error) {
      say({ kind: 'fault', fault: plainFault(error) });
    }
  });
});
