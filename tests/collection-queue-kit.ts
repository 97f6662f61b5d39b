import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect } from 'vitest';
import { command, type Ended, picturesIn, RIPPLE, writeCollection, writeTile } from './collection-kit.ts';

export const hasRedis = isInstalled('redis-server');
export const PLUGIN = ['--plugins', 'ripple.ts', '--trust'];

function isInstalled(program: string): boolean {
  try {
    execFileSync(program, ['--version'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

export function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address() as { port: number };
      server.close(() => resolve(port));
    });
  });
}

/** A server on a port of its own, of whatever kind. */
export async function listen(server: Server): Promise<number> {
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return (server.address() as { port: number }).port;
}

/** Debian's own Redis, on a port of its own. With `keep` what it holds survives a restart. */
export class OwnRedis {
  readonly port: number;
  readonly #folder: string;
  #child?: ChildProcess;

  constructor(folder: string, port: number) {
    this.#folder = folder;
    this.port = port;
  }

  get url(): string {
    return `redis://127.0.0.1:${this.port}`;
  }

  async start(keep = false, ...more: string[]): Promise<void> {
    const args = ['--port', String(this.port), '--bind', '127.0.0.1', '--dir', this.#folder, '--save', ''];
    const log = ['--appendonly', keep ? 'yes' : 'no', '--appendfsync', 'always'];
    const child = spawn('redis-server', [...args, ...log, ...more], { stdio: ['ignore', 'pipe', 'ignore'] });
    this.#child = child;
    await new Promise<void>((resolve, reject) => {
      let told = '';
      child.stdout.on('data', (text) => {
        told += text;
        if (told.includes('Ready to accept')) resolve();
      });
      child.on('exit', () => reject(new Error(told)));
    });
  }

  signal(name: NodeJS.Signals): void {
    this.#child?.kill(name);
  }

  async stop(): Promise<void> {
    const child = this.#child;
    this.#child = undefined;
    if (!child || child.exitCode !== null || child.signalCode !== null) return;
    const gone = new Promise((resolve) => child.on('exit', resolve));
    child.kill('SIGKILL');
    await gone;
  }
}

/** A folder with a collection of 21 renders, 3 of which fail. */
export async function queueFolder(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'tenter-queue-'));
  writeFileSync(join(folder, 'ripple.ts'), RIPPLE);
  mkdirSync(join(folder, 'art'));
  for (const [index, name] of ['sprig', 'stripe', 'leaf'].entries()) {
    await writeTile(join(folder, 'art', `${name}.png`), 160, 120, 12 * index);
  }
  writeCollection(join(folder, 'many.json'), {
    summary: 'Many.',
    tiles: [{ picture: 'art/*.png' }],
    recipes: [{ effect: 'ripple' }],
    vary: { seed: ['1', '2', '3', '4', '5', '6', 'bad-throw'] },
  });
  return folder;
}

/** A command that is under way. */
export interface Running {
  readonly child: ChildProcess;
  /** What it has said so far, both streams. */
  readonly words: () => string;
  /** Its end; where it does not come within so many seconds it is killed, and its code is -9. */
  within(seconds: number): Promise<Ended>;
  /** Waits until it has said this, 30 s at most. */
  says(words: string | RegExp): Promise<void>;
}

export function begin(folder: string, args: readonly string[]): Running {
  const child = spawn(process.execPath, [command, ...args], {
    cwd: folder,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let [out, err] = ['', ''];
  child.stdout.on('data', (text) => {
    out += text;
  });
  child.stderr.on('data', (text) => {
    err += text;
  });
  const ended = new Promise<void>((resolve) => child.on('close', () => resolve()));
  return {
    child,
    words: () => out + err,
    async within(seconds) {
      const timer = setTimeout(() => child.kill('SIGKILL'), seconds * 1000);
      await ended;
      clearTimeout(timer);
      return { code: child.exitCode ?? -9, out, err };
    },
    says: (words) =>
      until(() => (typeof words === 'string' ? (out + err).includes(words) : words.test(out + err))),
  };
}

/** Waits until something is so, 30 s at most. */
export async function until(isSo: () => boolean): Promise<void> {
  for (let turn = 0; turn < 1000; turn++) {
    if (isSo()) return;
    await new Promise((resolve) => setTimeout(resolve, 30));
  }
  throw new Error(`waited for half a minute in vain for ${isSo}`);
}

/** As one machine made it in `alone`: pictures, failures and report. */
export function expectWhole(folder: string, out: string): void {
  const own = join(folder, out);
  expect(picturesIn(own)).toEqual(picturesIn(join(folder, 'alone')));
  expect(readFileSync(join(own, 'report.json'), 'utf8')).toBe(
    readFileSync(join(folder, 'alone/report.json'), 'utf8'),
  );
  expectNothingHalfMade(folder, out);
}

export function expectNothingHalfMade(folder: string, out: string): void {
  for (const part of ['claims', 'work', 'owners'])
    expect(readdirSync(join(folder, out, '.tenter', part)), part).toEqual([]);
}
