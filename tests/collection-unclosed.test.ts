import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { RIPPLE, tenter, writeCollection, writeTile } from './collection-kit.ts';

let folder: string;
const flags = ['spring.json', '--plugins', 'ripple.ts', '--trust'];

/** A tile whose left and right edges are far apart. */
async function writeOpenTile(path: string): Promise<void> {
  const samples = Buffer.alloc(48 * 40 * 3);
  for (let i = 0; i < samples.length; i++) samples[i] = 40 + (Math.floor(i / 3) % 48) * 4;
  await sharp(samples, { raw: { width: 48, height: 40, channels: 3 } })
    .png()
    .toFile(path);
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-unclosed-'));
  writeFileSync(join(folder, 'ripple.ts'), RIPPLE);
  await writeTile(join(folder, 'whole.png'));
  await writeOpenTile(join(folder, 'cropped.png'));
  writeCollection(join(folder, 'spring.json'), {
    summary: 'Spring.',
    tiles: ['whole', 'cropped'].map((name) => ({ picture: `${name}.png`, size: '9.6x8mm' })),
    recipes: [{ effect: 'ripple' }],
    vary: { seed: { count: 12 } },
    output: { name: '{tile}-{seed}' },
  });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('names the renders that do not close at the end of a run, in its events and in the report', async () => {
  const ran = await tenter(folder, ['collect', 'run', ...flags]);
  expect(ran.code, ran.err).toBe(0);
  expect(ran.out).toMatch(/open +12 of 24 do not close:\n +cropped-1\.png\n/);
  expect(ran.out.match(/cropped-/g)).toHaveLength(10);
  expect(ran.out).toMatch(/and 2 more; the report names all/);
  expect(ran.out).not.toContain('whole-');

  const again = await tenter(folder, ['collect', 'run', ...flags, '--json']);
  const end = JSON.parse(again.out.trim().split('\n').at(-1)!);
  const { unclosed, counts } = JSON.parse(readFileSync(join(folder, 'made/report.json'), 'utf8'));
  expect([end.event, end.unclosed, counts.open]).toEqual(['end', unclosed, 12]);
  expect(unclosed).toHaveLength(12);
  expect(unclosed[0]).toEqual({ name: 'cropped-1.png', grade: 'open', summary: expect.stringMatching(/\w/) });

  const report = await tenter(folder, ['collect', 'report', ...flags]);
  expect(report.out).toMatch(/open +12 of 24 do not close:\n +cropped-1\.png\n/);
});
