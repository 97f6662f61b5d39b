import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { RIPPLE, tenter, writeCollection, writeTile } from './collection-kit.ts';

let folder: string;
const plugins = ['--plugins', 'ripple.ts', '--trust'];

/** A flat picture whose left half is darker; it closes. */
async function writeHalves(name: string, density: number, dark: number): Promise<void> {
  const samples = Buffer.alloc(96 * 80 * 3, 255);
  for (let k = 0; k < samples.length; k++) if (Math.floor(k / 3) % 96 < 48) samples[k] = dark;
  const picture = sharp(samples, { raw: { width: 96, height: 80, channels: 3 } });
  await picture.withMetadata({ density }).png().toFile(join(folder, name));
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-doubts-'));
  writeFileSync(join(folder, 'ripple.ts'), RIPPLE);
  mkdirSync(join(folder, 'art'));
  await writeTile(join(folder, 'art/print.png'));
  await writeHalves('art/screen.png', 72, 60);
  await writeHalves('mask.png', 72, 0);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function put(name: string, tiles: object[], more: object = {}): string[] {
  const recipes = [{ effect: 'ripple' }];
  writeCollection(join(folder, `${name}.json`), {
    summary: name,
    tiles,
    recipes,
    output: { folder: name },
    ...more,
  });
  return [`${name}.json`, ...plugins];
}

describe('a size that only the file tells, by the density of a screen', () => {
  const words =
    /line \d+, art\/screen\.png: the repeat came out at 33\.\d+ x 28\.\d+ mm, from the 72\S* dpi that its file states.*Write "size" or "dpi"/;

  it('is made, and warned of by plan and run', async () => {
    const args = put('stated', [{ picture: 'art/*.png' }]);
    const planned = await tenter(folder, ['collect', 'plan', ...args]);
    expect(planned.code).toBe(0);
    expect(planned.err).toMatch(words);
    expect(planned.err).not.toContain('print.png');
    const facts = JSON.parse((await tenter(folder, ['collect', 'plan', ...args, '--json'])).out);
    expect(facts.warnings).toEqual([expect.objectContaining({ place: 'tiles[0]' })]);
    const ran = await tenter(folder, ['collect', 'run', ...args]);
    expect([ran.code, ran.out]).toEqual([0, expect.stringContaining('made     2')]);
    expect(ran.err).toMatch(words);
    const again = await tenter(folder, ['collect', 'run', ...args, '--json']);
    expect(JSON.parse(again.out.split('\n')[0])).toMatchObject({ event: 'warning', place: 'tiles[0]' });
  });
  it('is believed where the collection says it', async () => {
    for (const [name, tile, more] of [
      ['dpi', { dpi: 72 }, {}],
      ['size', { size: '33.6x28mm' }, {}],
      ['axis', {}, { vary: { size: ['33.6x28mm', '67.2x56mm'] } }],
    ] as const) {
      const args = put(name, [{ picture: 'art/screen.png', ...tile }], more);
      expect(await tenter(folder, ['collect', 'plan', ...args])).toMatchObject({ code: 0, err: '' });
    }
  });
  it('has a remark beside it in a file that is started, with the layout that it closes over', async () => {
    const made = await tenter(folder, ['collect', 'start', 'art', '--out', 'started.json']);
    expect([made.code, made.err]).toEqual([0, '']);
    const text = readFileSync(join(folder, 'started.json'), 'utf8');
    expect(text.match(/LOOK at the size/g)).toHaveLength(1);
    expect(text).toMatch(
      /LOOK at the size: .*72\S* dpi.* At 300 dpi it would be 8\.13 x 6\.77 mm\n.*\n.*art\/screen\.png/,
    );
    expect(text.match(/it closes over straight/g)).toHaveLength(2);
  });
});

it('a picture that cannot be decoded is left out of a file that is started, and named', async () => {
  mkdirSync(join(folder, 'harmed'));
  const whole = readFileSync(join(folder, 'art/print.png'));
  writeFileSync(join(folder, 'harmed/whole.png'), whole);
  writeFileSync(join(folder, 'harmed/half.png'), whole.subarray(0, whole.length / 2));
  const made = await tenter(folder, ['collect', 'start', 'harmed', '--out', 'harmed.json']);
  expect(made.err).toContain('half.png cannot be read and was left out');
  expect(readFileSync(join(folder, 'harmed.json'), 'utf8')).not.toContain('half.png');
});

describe('masks in a collection', () => {
  const masked = (mask: object) => ({ steps: [{ effect: 'ripple', mask }] });
  const recipes = [
    { name: 'none', ...masked({ colours: ['#00ff00'] }) },
    { name: 'half', ...masked({ colours: ['#3c3c3c'] }) },
    { name: 'picture', ...masked({ picture: 'mask.png' }) },
  ];
  const sidecar = (out: string, name: string) =>
    JSON.parse(readFileSync(join(folder, out, 'screen', `${name}.png.json`), 'utf8'));

  it('say what share they took, and the end of a run counts those that took nothing', async () => {
    const args = put('masks', [{ picture: 'art/screen.png', dpi: 72 }], { recipes });
    const ran = await tenter(folder, ['collect', 'run', ...args]);
    expect(ran.out).toMatch(/mask +1 of 3 has a step whose mask took nothing.*\n +screen\/none\.png\n/);
    expect(sidecar('masks', 'half')).toMatchObject({
      laidOn: [0.5],
      notes: ['ripple was laid on 50 % of the tile'],
    });
    expect(sidecar('masks', 'none').notes.join('\n')).toMatch(/#3c3c3c \(50 %\).*nearest to #00ff00 is/);
    const again = await tenter(folder, ['collect', 'run', ...args, '--json']);
    expect(JSON.parse(again.out.trim().split('\n').at(-1)!).unlaid).toEqual(['screen/none.png']);
  });
  it('that are pictures go along to another density', async () => {
    const args = put('dense', [{ picture: 'art/screen.png', dpi: 72, fit: true }], { recipes });
    const ran = await tenter(folder, ['collect', 'run', ...args, '--dpi', '144']);
    expect([ran.code, ran.err.includes('failed')]).toEqual([0, false]);
    const { picture, laidOn } = sidecar('dense-144dpi', 'picture');
    expect([picture.widthPx, picture.heightPx]).toEqual([192, 160]);
    expect(laidOn[0]).toBeCloseTo(0.5, 2);
    const { data } = await sharp(join(folder, 'dense-144dpi/screen/picture.png'))
      .removeAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    const row = Array.from({ length: 192 }, (_, x) => data[3 * (192 * 80 + x)]);
    // The black half of the mask keeps the artwork; the ripple is on the other.
    expect(new Set(row.slice(8, 88))).toEqual(new Set([60]));
    expect(Math.max(...row.slice(104, 184)) - Math.min(...row.slice(104, 184))).toBeGreaterThan(20);
  });
});
