import { type MessagePort, workerData } from 'node:worker_threads';
import type { Answer, Posted } from './messages.ts';

/** What a thread is born with. */
export interface Gift {
  /** The way to the host. */
  readonly port: MessagePort;
  readonly pulse: Int32Array<ArrayBufferLike>;
  /** How the URLs of the host's own effects begin. */
  readonly ownModules?: string;
  /** Memory in MB that an effect may take. */
  readonly megabytes: number;
}

/** A thread's talk with the host. */
export interface HostLine {
  say(answer: Answer): void;
  hear(listener: (posted: Posted) => void): void;
}

/**
 * Takes what the thread was born with out of everybody's reach: an effect that imports Node's module of
 * threads finds nothing by which to answer in the host's name.
 */
export function takeGift(): Omit<Gift, 'port'> & { readonly line: HostLine } {
  const { port, ...rest } = workerData as Gift;
  for (const name of Object.keys(workerData)) delete workerData[name];
  hideHandles();
  return {
    ...rest,
    line: {
      say: port.postMessage.bind(port),
      // A resource of the event loop is all that `executionAsyncResource` then names, and not the port.
      hear: (listener) => void port.on('message', (posted) => setImmediate(listener, posted)),
    },
  };
}

/** By this, without a word in Node's documentation, anybody could have any open port. */
function hideHandles(): void {
  Object.assign(process, { _getActiveHandles: () => [] });
}
