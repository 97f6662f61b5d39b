import { Fault } from '../../fault.ts';
import { QueuePulse } from './pulse.ts';
import type { PlanQueue } from './queue.ts';
import { placeOf, type QueuePlace, unreachable } from './redis.ts';
import { refusalOf } from './redis-refusal.ts';

/** How long a queue that is out of reach is waited for, s. */
export const QUEUE_SECONDS = 60;

/**
 * Does something with a queue while it is within reach.
 *
 * @param say Told when it is out of reach, and when it is back.
 * @throws Fault (input) where it refuses, or is away for too long; and what `work` throws.
 */
export async function attend<T>(
  queue: PlanQueue,
  { url }: QueuePlace,
  say: (words: string) => void,
  work: () => Promise<T>,
): Promise<T> {
  const describe = (error: unknown) => refusalOf(error, placeOf(url).secret);
  let pulse: QueuePulse | undefined;
  const lost = new Promise<never>((_, reject) => {
    const onLost = (refusal: ReturnType<typeof describe>) => reject(unreachable(url, refusal));
    pulse = new QueuePulse({ ask: () => queue.feel(), seconds: QUEUE_SECONDS, describe, say, onLost });
  });
  try {
    return await Promise.race([work(), lost]);
  } catch (error) {
    // Of all that may go wrong here the system's own errors are about files.
    const isOfServer = (error as Error).name === 'ReplyError';
    throw !Fault.is(error) && isOfServer ? unreachable(url, describe(error)) : error;
  } finally {
    pulse?.stop();
  }
}
