import { Fault } from '../../fault.ts';

/** The queue engine, loaded where it is asked for: nobody else needs it installed. */
export type Engine = typeof import('bullmq');

/** Redis and the engine, opened for one plan. */
export interface QueuePlace {
  /** Such as redis://localhost:6379; may hold a password, so it is never shown. */
  readonly url: string;
}

/** ms to wait for the first answer of Redis. */
const FIRST_ANSWER_MS = 5_000;

/**
 * Loads the queue engine and checks that Redis answers.
 *
 * @throws Fault (usage) where the optional packages are not installed, or the address is none; Fault (input) where
 *   nobody answers.
 */
export async function openEngine({ url }: QueuePlace): Promise<Engine> {
  const where = hostOf(url);
  const [engine, { Redis }] = await Promise.all([import('bullmq'), import('ioredis')]).catch(notInstalled);
  const probe = new Redis(url, {
    lazyConnect: true,
    connectTimeout: FIRST_ANSWER_MS,
    maxRetriesPerRequest: 0,
    retryStrategy: () => null,
  });
  // Told by the failing call below.
  probe.on('error', () => {});
  try {
    await probe.connect();
    await probe.ping();
  } catch (cause) {
    throw new Fault({
      kind: 'input',
      expected: 'a Redis server that answers',
      subject: `--redis, at ${where}`,
      received: (cause as Error).message,
      remedy: 'Start one (redis-server), or check the address.',
      cause,
    });
  } finally {
    probe.disconnect();
  }
  return engine;
}

function hostOf(url: string): string {
  try {
    const { protocol, host } = new URL(url);
    if (/^rediss?:$/.test(protocol) && host) return host;
  } catch {
    // Told below, without the address: it may hold a password.
  }
  throw new Fault({
    kind: 'usage',
    expected: 'the address of a Redis server',
    subject: '--redis',
    received: 'something else',
    remedy: 'Write for example redis://localhost:6379.',
  });
}

function notInstalled(cause: unknown): never {
  if ((cause as NodeJS.ErrnoException).code !== 'ERR_MODULE_NOT_FOUND') throw cause;
  throw new Fault({
    kind: 'usage',
    expected: 'the packages bullmq and ioredis, which only the queue needs',
    subject: '--redis',
    received: 'an installation without them',
    remedy: 'Install them (npm install bullmq ioredis), or split the work with --shard, which needs neither.',
    cause,
  });
}
