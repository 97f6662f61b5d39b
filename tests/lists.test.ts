import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { tenter, writeCollection, writeTile } from './collection-kit.ts';

const BANDS = `
import { defineEffect, numbers, palette, text } from 'tenter';
export default defineEffect({
  apiVersion: 2, name: 'bands', version: '1.0.0', summary: 'Bands of colours.',
  parameters: {
    yarns: palette({ least: 1, most: 4, default: ['#ffffff', '#34558b'], help: 'Colours of the bands.' }),
    widths: numbers({ unit: 'mm', min: 1, max: 40, least: 1, most: 4, default: [3, 2], help: 'Widths of the bands.' }),
    order: text({ pattern: '(A+)+( B)*', longest: 40, default: 'A B', say: 'letters such as A B', help: 'Letters.' }),
  },
  sentences: ['Bands of {yarns}, {widths} wide, in the order {order}.'],
  planes: ['tint'],
  prepare({ parameters: { yarns, widths, order }, report }) {
    if (!Object.isFrozen(yarns) || !Object.isFrozen(widths)) throw new Error('a list that can be changed');
    report({ name: 'given', value: [yarns.join('/'), widths.join('/'), order].join(' ') });
    return { tone: parseInt(yarns[0].slice(1, 3), 16) / 255 };
  },
  paint(model, band, layer) { layer.tint.fill(model.tone); },
});`;

let folder: string;
const run = (...args: string[]) => tenter(folder, [...args, '--plugins', 'bands.ts', '--trust']);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-lists-'));
  writeFileSync(join(folder, 'bands.ts'), BANDS);
  await writeTile(join(folder, 'sprig.png'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const MAKE = ['make', 'bands', '--size', '10x10mm', '--dpi', '50.8', '--overwrite', '--out', 'look.png'];

describe('on the command line', () => {
  it('lists and texts reach the effect as they were written', async () => {
    const { out, err } = await run(
      ...MAKE,
      ...['--set', 'yarns=#aa0000,#00bb00', '--set', 'widths=7,2.5 mm,7', '--set', 'order=AA B B'],
    );
    expect(err).toBe('');
    expect(out).toContain('given #aa0000/#00bb00 7/2.5/7 AA B B');
  });
  it.each([
    ['widths=7,400', 'number 2 of widths of bands but received 400. The nearest is 40. The default is 3,2;'],
    ['yarns=#aa0000,0b0', 'Write "#aa0000,#00bb00"'],
    ['width=7', 'Did you mean "widths"?'],
    [`order=${'A'.repeat(39)}!`, `"${'A'.repeat(39)}" would do; what follows it does not.`],
  ])('--set %s is refused at once', async (set, told) => {
    const { code, err } = await run(...MAKE, '--set', set);
    expect(code).toBe(2);
    expect(err).toContain(told);
  });
  it('effects tells what they take, and their defaults', async () => {
    const { out } = await run('effects', 'bands');
    expect(out).toContain('yarns  a list of 1 to 4 colours written #rrggbb; default #ffffff,#34558b');
    expect(out).toContain('widths  a list of 1 to 4 numbers from 1 to 40 mm; default 3,2');
    expect(out).toContain('order  letters such as A B, in 40 characters at most; default "A B"');
    expect(out).toContain('\n  Bands of #ffffff and #34558b, 3 and 2 mm wide, in the order A B.\n');
    const json = JSON.parse((await run('effects', 'bands', '--json')).out);
    expect(json.sentences).toEqual(['Bands of {yarns}, {widths} wide, in the order {order}.']);
    expect(json.parameters.order).toMatchObject({ kind: 'text', pattern: '(A+)+( B)*', longest: 40 });
  });
});

describe('in files', () => {
  it('a recipe is started, described and laid with them', async () => {
    expect((await tenter(folder, ['start', 'check.json', '--effect', 'woven-check'])).err).toBe('');
    expect(readFileSync(join(folder, 'check.json'), 'utf8')).toContain('"parameters": { "warp": "A24 B24" }');
    const recipe = {
      summary: 'Two.',
      steps: [{ effect: 'bands', parameters: { widths: [9, 1], yarns: ['#aa0000'], order: 'A B' } }],
    };
    writeFileSync(join(folder, 'two.json'), JSON.stringify(recipe));
    expect((await run('effects', 'two.json')).out).toContain('with widths 9,1, yarns #aa0000, order "A B"');
    const laid = await run('lay', 'two.json', 'sprig.png', '--out', 'laid.png', '--json');
    expect(JSON.parse(laid.out).steps[0].parameters).toEqual({
      yarns: ['#aa0000'],
      widths: [9, 1],
      order: 'A B',
    });
  });
  it('a recipe with a wrong item is told with its line', async () => {
    const wrong =
      '{ "summary": "Wrong.", "steps": [\n{ "effect": "bands", "parameters": {\n"yarns": ["#aa0000", "red"],\n"widths": "9, 1" } } ] }';
    writeFileSync(join(folder, 'wrong.json'), wrong);
    const { code, err } = await run('lay', 'wrong.json', 'sprig.png', '--out', 'wrong.png');
    expect(code).toBe(3);
    expect(err).toMatch(
      /line 3, steps\[0\]\.parameters\.yarns: .* colour 2 of yarns of bands but received "red"/,
    );
    expect(err).toMatch(/line 4, .*received "9, 1"\. Write \[9, 1\]\./);
    expect(existsSync(join(folder, 'wrong.png'))).toBe(false);
  });
});

describe('in a collection', () => {
  const collection = (vary: object, except: object[] = []) => ({
    summary: 'Bands.',
    tiles: [{ picture: 'sprig.png' }],
    recipes: [{ effect: 'bands', parameters: { yarns: ['#aa0000'] } }],
    vary,
    except,
  });
  it('an axis of lists is made, named, recorded and made again', async () => {
    const vary = { 'bands.widths': [[9, 1], [1, 9], [5]], 'bands.order': ['A', 'A B'] };
    writeCollection(
      join(folder, 'bands-collection.json'),
      collection(vary, [{ 'bands.widths': '5', 'bands.order': 'A B' }]),
    );
    const first = await run('collect', 'run', 'bands-collection.json');
    expect(first.err).not.toContain('fault');
    const pictures = () =>
      readdirSync(join(folder, 'made'), { recursive: true, encoding: 'utf8' })
        .filter((name) => name.endsWith('.png') && !name.includes('.tenter'))
        .sort();
    expect(pictures()).toEqual(
      ['1-9-A-B', '1-9-A', '5-A', '9-1-A-B', '9-1-A'].map((name) => `sprig/bands-${name}.png`).sort(),
    );
    const sidecars = readdirSync(join(folder, 'made/sprig')).filter((name) => name.endsWith('.json'));
    const recorded = sidecars.map((name) =>
      readFileSync(join(folder, 'made/sprig', name), 'utf8').replaceAll(/\s/g, ''),
    );
    expect(recorded.filter((text) => text.includes('"widths":[1,9]'))).toHaveLength(2);
    const again = await run('collect', 'run', 'bands-collection.json', '--json');
    expect(again.out).toMatch(/"made":\s*0/);
  });
  it('a flat axis is refused, for it might be one list or two', async () => {
    writeCollection(join(folder, 'flat.json'), collection({ 'bands.widths': [9, 1] }));
    const { code, err } = await run('collect', 'run', 'flat.json');
    expect(code).not.toBe(0);
    expect(err).toContain(
      'a list of lists, one for each value for bands.widths but received 9. Write [[9]] for one value.',
    );
  });
});
