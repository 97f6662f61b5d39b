import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Redis } from 'ioredis';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { picturesIn, tenter } from './collection-kit.ts';
import {
  begin,
  expectNothingHalfMade,
  expectWhole,
  freePort,
  hasRedis,
  OwnRedis,
  PLUGIN,
  queueFolder,
} from './collection-queue-kit.ts';

let folder: string;
let redis: OwnRedis;

beforeAll(async () => {
  folder = await queueFolder();
  redis = new OwnRedis(folder, await freePort());
  expect((await tenter(folder, ['collect', 'run', 'many.json', '--out', 'alone', ...PLUGIN])).code).toBe(6);
}, 60_000);
afterEach(() => redis.stop());
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function verb(name: string, out: string, ...rest: string[]): string[] {
  return ['collect', name, 'many.json', '--out', out, '--redis', redis.url, ...PLUGIN, ...rest];
}

function work(out: string, ...rest: string[]): string[] {
  return verb('work', out, '--gone-after', '2', '--workers', '1', ...rest);
}

/** Whoever reads what the queue holds, beside the program. */
async function inRedis<T>(use: (client: Redis, key: (name: string) => string) => Promise<T>): Promise<T> {
  const client = new Redis(redis.url);
  try {
    const [wait] = await client.keys('bull:tenter-*:wait');
    const prefix = wait.slice(0, -'wait'.length);
    return await use(client, (name) => prefix + name);
  } finally {
    client.disconnect();
  }
}

describe.skipIf(!hasRedis)('a Redis that comes to harm (skipped where redis-server is not installed)', () => {
  it.each([
    ['SIGINT', 'SIGKILL'],
    ['SIGINT', 'SIGSTOP'],
    ['SIGTERM', 'SIGKILL'],
    ['SIGTERM', 'SIGSTOP'],
  ] as const)('a worker obeys %s while Redis is away by %s', async (stop, harm) => {
    const out = `${stop}-${harm}`;
    await redis.start();
    await tenter(folder, verb('queue', out));
    const working = begin(folder, work(out, '--stay', '--json'));
    await working.says(/"event":"made"/);
    redis.signal(harm);
    await new Promise((resolve) => setTimeout(resolve, 2000));
    working.child.kill(stop);
    expect((await working.within(15)).code).toBe(130);
    expectNothingHalfMade(folder, out);
  });
  it('says that a frozen Redis is out of reach, and goes on when it is back', async () => {
    await redis.start();
    await tenter(folder, verb('queue', 'frozen'));
    const working = begin(folder, work('frozen'));
    await working.says('renders to do');
    redis.signal('SIGSTOP');
    await working.says('the queue is out of reach (no answer); it is waited for, 60 s at most');
    redis.signal('SIGCONT');
    const { code, err } = await working.within(60);
    expect([code, err]).toEqual([6, expect.stringContaining('the queue is back')]);
    expectWhole(folder, 'frozen');
  });
  it.each(['SIGKILL', 'SIGSTOP'] as const)(
    'ends with work left, and says so, when %s is for good',
    async (harm) => {
      const out = `lost-${harm}`;
      await redis.start();
      await tenter(folder, verb('queue', out));
      const working = begin(folder, work(out, '--wait-for-queue', '2'));
      await working.says('renders to do');
      redis.signal(harm);
      const { code, err } = await working.within(60);
      expect(code, err).toBe(3);
      expect(err).toMatch(/It was waited for, 2 s; \d+ renders are left\. Run the same command again/);
      expect(picturesIn(join(folder, out)).size).toBeLessThan(18);
      expectNothingHalfMade(folder, out);
    },
  );
  it('does not end with 0 where it was stopped while it had nothing to do', async () => {
    await redis.start();
    const working = begin(folder, work('idle', '--stay', '--json'));
    await working.says(/"done":21,/);
    await new Promise((resolve) => setTimeout(resolve, 1500));
    working.child.kill('SIGINT');
    expect((await working.within(15)).code).toBe(130);
  });
  it('tells the one who watches that the queue was emptied before all was made', async () => {
    await redis.start();
    await tenter(folder, verb('queue', 'emptied'));
    const watching = begin(folder, verb('queue', 'emptied', '--watch'));
    await watching.says('21 wait');
    await inRedis((client) => client.flushall());
    const { code, err } = await watching.within(20);
    expect([code, err]).toEqual([6, expect.stringContaining('21 renders are left')]);
  });
});

describe.skipIf(!hasRedis)('junk in the queue', () => {
  it('is set aside, named and counted, and all workers go on', async () => {
    await redis.start();
    await tenter(folder, verb('queue', 'junk'));
    await inRedis(async (client, key) => {
      const put = async (id: string, job: Record<string, string>) => {
        await client.hset(key(id), { name: 'render', timestamp: '1', opts: '{}', ...job });
        await client.rpush(key('wait'), id);
      };
      const real = (await client.lrange(key('wait'), 0, -1))[0];
      const { address, name } = JSON.parse((await client.hget(key(real), 'data'))!);
      await put('no-json', { data: '{"address":' });
      await put('no-object', { data: 'null' });
      await put('no-shape', { data: '[1,2]' });
      await put('no-opts', { data: '{}', opts: '{' });
      await put('huge', { data: JSON.stringify({ address: 'x'.repeat(20e6), name: 'y' }) });
      await put('deep', { data: '['.repeat(200_000) + ']'.repeat(200_000) });
      await put('other-version', { data: JSON.stringify({ version: 99, tile: 'art/leaf.png' }) });
      await put('unknown', { data: JSON.stringify({ address: 'f'.repeat(64), name: 'leaf/of-others.png' }) });
      await put('render-elsewhere', { data: JSON.stringify({ address, name }) });
      await put('wrong-name', { data: JSON.stringify({ address, name: '../../etc/passwd' }) });
      await put('tries', { data: '{}', opts: '{"attempts":1000,"backoff":{"type":"fixed","delay":1}}' });
      await put('child', {
        data: '{}',
        parentKey: 'bull:nobody:1',
        parent: '{"id":"1","queueKey":"bull:nobody"}',
      });
      await put('bad-parent', { data: '{}', parent: '{' });
      await put('repeated', { data: '{}', rjk: 'a:b:c:d:1' });
      await put('evil\u001b[31m\nname', { data: '{}' });
      await client.set(key('no-hash'), 'x');
      await client.rpush(key('wait'), 'no-hash', 'nothing-there');
      await client.lpush(key('active'), 'never-begun');
      await client.zadd(key('delayed'), 9e15, 'in-a-thousand-years');
    });
    const both = [1, 2].map(() => begin(folder, work('junk')));
    const ended = await Promise.all(both.map((one) => one.within(80)));
    const err = ended.map((one) => one.err).join('');
    expect(
      ended.map(({ code }) => code),
      err,
    ).toEqual([6, 6]);
    expectWhole(folder, 'junk');
    for (const id of [
      'no-json',
      'no-opts',
      'huge',
      'other-version',
      'unknown',
      'render-elsewhere',
      'no-hash',
    ])
      expect(err).toContain(`the job "${id}" is none of ours and was set aside`);
    expect(err).not.toContain('\u001b');
    const counted = ended.map(({ out }) => Number(/aside +(\d+) jobs/.exec(out)?.[1] ?? 0));
    expect(counted[0] + counted[1]).toBeGreaterThanOrEqual(16);
    const shown = (await tenter(folder, verb('queue', 'junk'))).out;
    expect(Number(/(\d+) set aside/.exec(shown)![1])).toBeGreaterThanOrEqual(16);
    expect((await tenter(folder, verb('queue', 'junk', '--drain'))).out).toContain('0 set aside');
  });
  it('does not stand in the way of a render under whose name it stands', async () => {
    await redis.start();
    await tenter(folder, verb('queue', 'named'));
    await inRedis(async (client, key) => {
      const [first, second, third, fourth] = await client.lrange(key('wait'), 0, -1);
      await client.hset(key(first), 'data', '{');
      await client.set(key(second), 'x');
      await client.lrem(key('wait'), 0, third);
      await client.zadd(key('delayed'), 9e15, third);
      await client.hset(key(fourth), 'data', '{"address":1}');
    });
    const { code, err } = await begin(folder, work('named')).within(80);
    expect(code, err).toBe(6);
    expectWhole(folder, 'named');
  });
});

describe.skipIf(!hasRedis)('a full disk under the queue', () => {
  it('is waited for as long as --wait-for-room says', async (context) => {
    const small = join(folder, 'small');
    mkdirSync(small);
    try {
      execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=2m', 'tmpfs', small], { stdio: 'ignore' });
    } catch {
      context.skip('mounting a small disk needs rights that this user has not got');
      return;
    }
    try {
      await redis.start();
      writeFileSync(join(small, 'ballast'), new Uint8Array(2_000_000));
      const full = await begin(folder, work('small/made', '--wait-for-room', '0')).within(60);
      expect([full.code, full.err]).toEqual([4, expect.stringContaining('the disk is full. Make room')]);
      const waiting = begin(folder, work('small/made', '--wait-for-room', '60'));
      await waiting.says('the disk is full; this worker waits for room');
      rmSync(join(small, 'ballast'));
      expect((await waiting.within(60)).code).toBe(6);
      expect(existsSync(join(small, 'made'))).toBe(true);
      expect(picturesIn(join(small, 'made'))).toEqual(picturesIn(join(folder, 'alone')));
    } finally {
      execFileSync('umount', [small]);
    }
  });
});
