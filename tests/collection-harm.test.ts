import { execFileSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { picturesIn, RIPPLE, startTenter, tenter, writeCollection, writeTile } from './collection-kit.ts';

/** TENTER_KILLS=50 for the long way. */
const KILLS = Number(process.env.TENTER_KILLS ?? 5);

/** Ctrl-C, `kill`, a terminal that is closed, Ctrl-\. */
const STOPS = ['SIGINT', 'SIGTERM', 'SIGHUP', 'SIGQUIT'] as const;

let folder: string;
const PLUGIN = ['--plugins', 'ripple.ts', '--trust'];
const COLLECTION = {
  summary: 'Harm.',
  tiles: [{ picture: 'art/*.png' }],
  recipes: [{ effect: 'ripple' }],
  vary: { seed: { count: 8 } },
};

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-harm-'));
  writeFileSync(join(folder, 'ripple.ts'), RIPPLE);
  mkdirSync(join(folder, 'art'));
  for (const [index, name] of ['sprig', 'stripe', 'leaf'].entries()) {
    await writeTile(join(folder, 'art', `${name}.png`), 160, 120, 12 * index);
  }
  writeCollection(join(folder, 'harm.json'), COLLECTION);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Every picture that has a sidecar is the whole picture that the sidecar tells of. */
function checkWhole(out: string): number {
  if (!existsSync(out)) return 0;
  const pictures = picturesIn(out);
  for (const [name, hash] of pictures) {
    const path = join(out, `${name}.json`);
    if (existsSync(path)) expect(JSON.parse(readFileSync(path, 'utf8')).picture.sha256, name).toBe(hash);
  }
  return pictures.size;
}

/** Deterministic delays, spread over a run: the golden section fills an interval evenly. */
function delayOf(kill: number, longest: number): number {
  return 200 + longest * ((kill * 0.618034) % 1);
}

describe('a collection that comes to harm', () => {
  it(`is killed ${KILLS} times, goes on, and ends with the bytes of an undisturbed run`, async () => {
    const started = performance.now();
    const calm = await tenter(folder, ['collect', 'run', 'harm.json', '--out', 'calm', ...PLUGIN]);
    expect([calm.code, calm.out]).toEqual([0, expect.stringContaining('made     24')]);
    const longest = performance.now() - started;
    const out = join(folder, 'killed');
    const counts: number[] = [];
    for (let kill = 0; kill < KILLS; kill++) {
      const { child, ended } = startTenter(folder, [
        'collect',
        'run',
        'harm.json',
        '--out',
        'killed',
        ...PLUGIN,
      ]);
      const timer = setTimeout(() => child.kill('SIGKILL'), delayOf(kill, longest));
      await ended;
      clearTimeout(timer);
      counts.push(checkWhole(out));
      // Where all was made before the blow, the next one needs something to hit.
      if (counts.at(-1) === 24) rmSync(join(out, 'leaf'), { recursive: true });
    }
    expect(Math.max(...counts)).toBeGreaterThan(0);
    const end = await tenter(folder, [
      'collect',
      'run',
      'harm.json',
      '--out',
      'killed',
      '--verify',
      ...PLUGIN,
    ]);
    expect([end.code, end.err]).toEqual([0, expect.not.stringContaining('failed')]);
    expect(picturesIn(out)).toEqual(picturesIn(join(folder, 'calm')));
    for (const part of ['work', 'owners', 'claims'])
      expect(readdirSync(join(out, '.tenter', part)), part).toEqual([]);
    expect(readFileSync(join(out, 'report.json'), 'utf8')).toBe(
      readFileSync(join(folder, 'calm/report.json'), 'utf8'),
    );
  });
  it.each(STOPS)('stops at %s, says how to go on, and leaves nothing half made', async (signal) => {
    const out = `stopped-${signal}`;
    const { child, ended } = startTenter(folder, ['collect', 'run', 'harm.json', '--out', out, ...PLUGIN]);
    const claims = join(folder, out, '.tenter/claims');
    while (!existsSync(claims) || readdirSync(claims).length === 0)
      await new Promise((r) => setTimeout(r, 20));
    child.kill(signal);
    await ended;
    expect(child.exitCode).toBe(130);
    expect(readdirSync(claims)).toEqual([]);
    expect(readdirSync(join(folder, out, '.tenter/work'))).toEqual([]);
    checkWhole(join(folder, out));
    expect(JSON.parse(readFileSync(join(folder, out, 'report.json'), 'utf8')).counts.asked).toBe(24);
  });
  it('is killed, and the next run sweeps up what it left', async () => {
    const temporary = join(folder, 'temporary');
    mkdirSync(temporary);
    const out = join(folder, 'swept');
    const args = ['collect', 'run', 'harm.json', '--out', 'swept', ...PLUGIN];
    const env = { TMPDIR: temporary };
    const { child, ended } = startTenter(folder, args, env);
    const claims = join(out, '.tenter/claims');
    while (!existsSync(claims) || readdirSync(claims).length === 0)
      await new Promise((r) => setTimeout(r, 20));
    child.kill('SIGKILL');
    await ended;
    expect(readdirSync(temporary)).toHaveLength(1);
    writeFileSync(join(temporary, 'tenter-of-mine'), 'mine');
    expect((await tenter(folder, args, env)).code).toBe(0);
    expect(readdirSync(temporary)).toEqual(['tenter-of-mine']);
    const left = readdirSync(out, { recursive: true, encoding: 'utf8' });
    expect(left.filter((name) => name.endsWith('.part'))).toEqual([]);
  });
  it('fills its disk, says so, and goes on when there is room', async (context) => {
    const small = join(folder, 'small');
    mkdirSync(small);
    try {
      execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=2m', 'tmpfs', small], { stdio: 'ignore' });
    } catch {
      context.skip('mounting a small disk needs rights that this user has not got');
      return;
    }
    try {
      const args = ['collect', 'run', 'harm.json', '--out', 'small/made', ...PLUGIN];
      writeFileSync(join(small, 'ballast'), new Uint8Array(1_820_000));
      const full = await tenter(folder, [...args, '--wait-for-room', '0']);
      expect([full.code, full.err]).toEqual([4, expect.stringContaining('the disk is full. Make room')]);
      // Without the option it would wait 15 s, and say so.
      const told = await tenter(folder, [...args, '--wait-for-room', '0', '--json']);
      expect([told.code, told.out]).toEqual([4, expect.not.stringContaining('wait for room')]);
      const patient = await tenter(folder, [...args, '--wait-for-room', '0.7', '--json']);
      expect(patient.out.match(/wait for room/g)).toHaveLength(2);
      expect(checkWhole(join(small, 'made'))).toBeLessThan(24);
      const waiting = tenter(folder, [...args, '--wait-for-room', '60']);
      setTimeout(() => rmSync(join(small, 'ballast')), 1500);
      const done = await waiting;
      expect(done.code).toBe(0);
      expect(picturesIn(join(small, 'made'))).toEqual(picturesIn(join(folder, 'calm')));
    } finally {
      execFileSync('umount', [small]);
    }
  });
});
