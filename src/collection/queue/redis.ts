import type { Redis } from 'ioredis';
import { Fault } from '../../fault.ts';
import { type Refusal, refusalOf } from './redis-refusal.ts';

/** The queue engine, loaded where it is asked for: nobody else needs it installed. */
export type Engine = typeof import('bullmq');
/** A connection to Redis. */
export type { Redis };

/** Where the queue is. */
export interface QueuePlace {
  /** Such as redis://localhost:6379; may hold a password, so it is never shown. */
  readonly url: string;
}

/** ms to wait for an answer of Redis. */
export const ANSWER_MS = 5_000;
/** The engine takes no older server. */
const OLDEST_MAJOR = 5;
/** Written to see whether the server takes anything; it vanishes by itself, after so many ms. */
export const PROBE_KEY = 'bull:tenter-probe';
export const PROBE_MS = 1_000;

/** For connections that outlive a server that is restarted; the engine's own way is to look again after up to 20 s. */
export const PATIENT = { maxRetriesPerRequest: null, retryStrategy: () => 1_000 };

function silence(url: string): Refusal {
  const received = `no answer within ${ANSWER_MS / 1000} s`;
  // A server without TLS waits for the rest of what it takes for a command.
  const remedy = url.startsWith('rediss:')
    ? 'Check that it speaks TLS at that port; where it does not, write redis:// instead of rediss://.'
    : 'Check that Redis listens there; where it wants TLS, write rediss:// instead of redis://.';
  return { received, remedy };
}

/**
 * Loads the queue engine, checks that Redis answers and takes what it is given, and connects.
 *
 * @throws Fault (usage) where the optional packages are not installed, or the address is none; Fault (input) where
 *   nobody answers, or the server cannot hold a queue. No message shows a password.
 */
export async function openEngine({
  url,
}: QueuePlace): Promise<{ readonly engine: Engine; readonly client: Redis }> {
  const { secret } = placeOf(url);
  const [engine, { Redis }] = await Promise.all([import('bullmq'), import('ioredis')]).catch(notInstalled);
  const probe = new Redis(url, {
    lazyConnect: true,
    connectTimeout: ANSWER_MS,
    maxRetriesPerRequest: 0,
    maxLoadingRetryTime: ANSWER_MS / 2,
    retryStrategy: () => null,
  });
  // What went wrong comes as an event; the call that fails of it says only that the connection is closed.
  let first: Error | undefined;
  probe.on('error', (error) => {
    first ??= error;
  });
  try {
    const refusal = await inTime(lookAt(probe), silence(url));
    if (refusal) throw unreachable(url, refusal);
  } catch (error) {
    throw Fault.is(error) ? error : unreachable(url, refusalOf(first ?? error, secret));
  } finally {
    probe.disconnect();
  }
  return { engine, client: new Redis(url, PATIENT) };
}

/** @returns What speaks against this server; it may also throw the client's own errors. */
async function lookAt(probe: Redis): Promise<Refusal | undefined> {
  await probe.connect();
  const info = await probe.info();
  const version = /^redis_version:(\S+)/m.exec(info)?.[1];
  if (version && Number.parseInt(version, 10) < OLDEST_MAJOR)
    return { received: `version ${version}`, remedy: `The queue needs Redis ${OLDEST_MAJOR} or newer.` };
  if (/^cluster_enabled:1/m.test(info)) return refusalOf(new Error('MOVED'));
  await probe.set(PROBE_KEY, '', 'PX', PROBE_MS);
  return undefined;
}

async function inTime(
  answer: Promise<Refusal | undefined>,
  otherwise: Refusal,
): Promise<Refusal | undefined> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<Refusal>((resolve) => {
    timer = setTimeout(() => resolve(otherwise), ANSWER_MS);
  });
  return Promise.race([answer, late]).finally(() => clearTimeout(timer));
}

/** The Fault of a queue that cannot be had. @param left What it leaves undone, a whole sentence. */
export function unreachable(url: string, { received, remedy }: Refusal, left = ''): Fault {
  return new Fault({
    kind: 'input',
    expected: 'a Redis server that answers',
    subject: `--redis, at ${placeOf(url).host}`,
    received,
    remedy: [left, remedy].filter(Boolean).join(' '),
  });
}

/**
 * The part of an address that may be shown, and the part that may not.
 *
 * @throws Fault (usage) for what is no address of a Redis server.
 */
export function placeOf(url: string): { readonly host: string; readonly secret: string } {
  try {
    const { protocol, host, password, pathname, search, hash } = new URL(url);
    // A password with such a sign ends the host too early: part of it would be shown as the host.
    const isWhole = !`${pathname}${search}${hash}`.includes('@');
    if (/^rediss?:$/.test(protocol) && host && isWhole) return { host, secret: decodeURIComponent(password) };
  } catch {
    // Told below, without the address: it may hold a password.
  }
  throw new Fault({
    kind: 'usage',
    expected: 'the address of a Redis server',
    subject: '--redis',
    received: 'something else',
    remedy:
      'Write for example redis://localhost:6379; in a password # is written %23, / is %2F, ? is %3F, @ is %40.',
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
