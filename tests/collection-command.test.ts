import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { RIPPLE, tenter, writeCollection, writeTile } from './collection-kit.ts';

let folder: string;
const PLUGIN = ['--plugins', 'ripple.ts', '--trust'];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-command-'));
  writeFileSync(join(folder, 'ripple.ts'), RIPPLE);
  mkdirSync(join(folder, 'art'));
  for (const name of ['sprig', 'leaf']) await writeTile(join(folder, 'art', `${name}.png`));
  writeCollection(join(folder, 'spring.json'), {
    summary: 'Spring.',
    tiles: [{ picture: 'art/*.png' }],
    recipes: [{ effect: 'ripple' }],
    vary: { seed: ['1', '2', 'bad-throw'] },
    output: { folder: 'made' },
  });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const collect = (verb: string, ...rest: string[]) =>
  tenter(folder, ['collect', verb, 'spring.json', ...PLUGIN, ...rest]);

describe('the commands of a collection', () => {
  it('show the plan, and what is there of it, and render nothing for that', async () => {
    const facts = async () => JSON.parse((await collect('plan', '--json')).out);
    // 6 renders of 48 x 40 px.
    expect(await facts()).toMatchObject({ renders: 6, made: 0, missing: 6, megapixels: 0.01152 });
    const { estimate } = await facts();
    expect(estimate.measured).toBe(false);
    expect(estimate.seconds).toBeGreaterThan(0);
    expect(estimate.bytes).toBeGreaterThan(0);
    expect((await collect('run', '--only', 'leaf/ripple-1')).code).toBe(0);
    const after = await facts();
    expect(after).toMatchObject({ renders: 6, made: 1, missing: 5, megapixels: 0.0096 });
    const there = after.items.filter(({ made }: { made: boolean }) => made);
    expect(there.map(({ name }: { name: string }) => name)).toEqual(['leaf/ripple-1.png']);
    expect((await collect('plan', '--list')).out).toMatch(/there +leaf\/ripple-1\.png/);
  });

  it('tell every event as a line of JSON: each render once, how far it is, the time left down to none', async () => {
    const { code, out } = await collect('run', '--out', 'events', '--json');
    expect(code).toBe(6);
    const events = out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    const named = (kind: string) =>
      events.filter(({ event }) => event === kind).map(({ name }) => name as string);
    expect(events[0]).toMatchObject({ event: 'begin', renders: 6, made: 0 });
    expect(named('made').sort()).toEqual(
      ['leaf', 'sprig'].flatMap((tile) => [`${tile}/ripple-1.png`, `${tile}/ripple-2.png`]),
    );
    expect(named('failed').sort()).toEqual(['leaf', 'sprig'].map((tile) => `${tile}/ripple-bad-throw.png`));
    const progress = events.filter(({ event }) => event === 'progress');
    expect(progress.map(({ done }) => done)).toEqual([1, 2, 3, 4, 5, 6]);
    for (const { done, share, secondsLeft } of progress) {
      expect(share).toBeCloseTo(done / 6, 9);
      if (done < 6) expect(secondsLeft).toBeGreaterThan(0);
    }
    expect(progress.at(-1)).toMatchObject({ share: 1, secondsLeft: 0 });
    expect(events.at(-1)).toMatchObject({ event: 'end', made: 4, left: 0 });
  });

  it('write plain lines where there is no terminal', async () => {
    const { code, err } = await collect('run', '--out', 'plain');
    expect(code).toBe(6);
    expect(err).toContain('6 renders to do, 0 there already\n');
    expect(err).toContain('100 %  6 of 6\n');
    expect([...err].filter((sign) => sign < ' ' && sign !== '\n')).toEqual([]);
  });
});
