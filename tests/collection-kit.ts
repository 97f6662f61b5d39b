import { execFile, spawn } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { sha256 } from '../src/collection/disk/hash.ts';
import { API_VERSION } from '../src/effect/index.ts';

export const command = new URL('../dist/cli/main.js', import.meta.url).pathname;

/** A quick effect of one plane; a seed that begins with "bad" makes it fail as its name says. */
export const RIPPLE = `
import { defineEffect, numeric } from 'tenter';
export default defineEffect({
  apiVersion: ${API_VERSION}, name: 'ripple', version: '1.0.0', summary: 'Ripples.',
  parameters: {
    depth: numeric({ unit: 'ratio', min: 0, max: 1, default: 0.3, help: 'How deep.' }),
    length: numeric({ unit: 'mm', min: 1, max: 50, default: 4, help: 'How long.' }),
  },
  planes: ['shade'],
  prepare({ box, parameters, seed, random }) {
    if (seed === 'bad-throw') throw new Error('ink');
    if (seed === 'bad-hang') for (;;);
    if (seed === 'bad-exit') process.exit(3);
    const waves = Math.max(1, Math.round(box.width / parameters.length));
    return { perMm: waves / box.width, depth: parameters.depth, start: random('start').next() };
  },
  paint(model, band, layer) {
    for (let row = 0, k = 0; row < band.height; row++) for (let column = 0; column < band.width; column++, k++) {
      const x = (band.x + column + 0.5) * band.mmPerPixelX;
      layer.shade[k] = 1 - model.depth * (0.5 + 0.5 * Math.cos(2 * Math.PI * (model.perMm * x + model.start)));
    }
  },
});`;

/** A tile that closes: waves of a whole number over both sides. */
export async function writeTile(path: string, width = 48, height = 40, hue = 0): Promise<void> {
  const samples = Buffer.alloc(width * height * 3);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const value = 150 + 60 * Math.sin((2 * Math.PI * x) / width) * Math.cos((4 * Math.PI * y) / height);
      samples.set([value, value - hue, (value + hue) / 2], (y * width + x) * 3);
    }
  }
  await sharp(samples, { raw: { width, height, channels: 3 } })
    .withMetadata({ density: 127 })
    .png()
    .toFile(path);
}

export function writeCollection(path: string, entry: unknown): string {
  writeFileSync(path, typeof entry === 'string' ? entry : JSON.stringify(entry, null, 2));
  return path;
}

export interface Ended {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs the built command in a folder. */
export function tenter(folder: string, args: readonly string[], env: NodeJS.ProcessEnv = {}): Promise<Ended> {
  return new Promise((resolve) => {
    const options = { cwd: folder, env: { ...process.env, ...env }, maxBuffer: 1 << 26 };
    execFile(process.execPath, [command, ...args], options, (error, out, err) => {
      resolve({ code: error ? Number(error.code ?? -1) : 0, out, err });
    });
  });
}

/** Starts the built command, to be stopped before its end. */
export function startTenter(folder: string, args: readonly string[], env: NodeJS.ProcessEnv = {}) {
  const options = { cwd: folder, stdio: 'ignore', env: { ...process.env, ...env } } as const;
  const child = spawn(process.execPath, [command, ...args], options);
  const ended = new Promise<void>((resolve) => child.on('exit', () => resolve()));
  return { child, ended };
}

/** All finished pictures under a folder: the hash of their bytes, by their path. */
export function picturesIn(folder: string): Map<string, string> {
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.png') && !name.startsWith('.tenter'))
    .sort();
  return new Map(names.map((name) => [name, sha256(readFileSync(join(folder, name)))]));
}
