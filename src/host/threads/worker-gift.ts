import { type MessagePort, workerData } from 'node:worker_threads';

/** What a painting thread is born with, besides the way to the host. */
export interface PaintGift {
  readonly pulse: Int32Array<ArrayBufferLike>;
  /** How the URLs of the host's own effects begin. */
  readonly ownModules?: string;
  /** Memory in MB that an effect may take. */
  readonly megabytes: number;
}

/** A thread's talk with the host. */
export interface HostLine<Order, Answer> {
  say(answer: Answer): void;
  hear(listener: (order: Order) => void): void;
}

/**
 * Takes what the thread was born with out of everybody's reach: an effect that imports Node's module of
 * threads finds nothing by which to answer in the host's name.
 */
export function takeGift<Order, Answer, Gift = object>(): Gift & { readonly line: HostLine<Order, Answer> } {
  const { port, ...gift } = workerData as Gift & { readonly port: MessagePort };
  for (const name of Object.keys(workerData)) delete workerData[name];
  hideHandles();
  return {
    ...(gift as Gift),
    line: {
      say: port.postMessage.bind(port),
      // A resource of the event loop is all that `executionAsyncResource` then names, and not the port.
      hear: (listener) => void port.on('message', (order) => setImmediate(listener, order)),
    },
  };
}

/** By this, without a word in Node's documentation, anybody could have any open port. */
function hideHandles(): void {
  Object.assign(process, { _getActiveHandles: () => [] });
}
