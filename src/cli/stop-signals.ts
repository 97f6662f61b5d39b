import { onParentGone } from '../host/code/parent.ts';

/** What asks a process to end: Ctrl-C, `kill`, a terminal that is closed, Ctrl-\. */
const ASKING = ['SIGINT', 'SIGTERM', 'SIGHUP', 'SIGQUIT'] as const;

/**
 * Calls `stop` at the first signal that asks this process to end. Ctrl-C or Ctrl-\ for the second time ends
 * it at once, for somebody is impatient; the others may come twice of themselves.
 *
 * @returns Ends the listening.
 */
export function onStopSignal(stop: () => void): () => void {
  const hear = (signal: NodeJS.Signals) => {
    if (signal === 'SIGINT' || signal === 'SIGQUIT') process.off(signal, hear);
    stop();
  };
  for (const signal of ASKING) process.on(signal, hear);
  const endParent = onParentGone(stop);
  return () => {
    for (const signal of ASKING) process.off(signal, hear);
    endParent();
  };
}

/** Lets a signal end the work cleanly: what is under way is given up, what is made stays. */
export async function untilStopped<T>(work: (signal: AbortSignal) => Promise<T>): Promise<T> {
  const stopping = new AbortController();
  const end = onStopSignal(() => stopping.abort());
  try {
    return await work(stopping.signal);
  } finally {
    end();
  }
}
