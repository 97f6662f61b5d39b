import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { RenderedItem } from '../making/render-item.ts';
import type { Item } from '../plan/item.ts';
import { sha256 } from './hash.ts';
import { placeItem } from './place.ts';
import { type Standing, standingOf } from './sidecar.ts';

/** How many more steps on the disk are done before the process counts as killed. */
const life = vi.hoisted(() => ({ steps: Number.POSITIVE_INFINITY }));

/** Every call that changes something on the disk counts as a step; once killed, none does anything. */
vi.mock('node:fs/promises', async (original) => {
  const real = await original<typeof import('node:fs/promises')>();
  const mortal = ['rename', 'rm', 'rmdir', 'mkdir', 'link', 'writeFile', 'open'] as const;
  const mocked = mortal.map((name) => [
    name,
    (...words: unknown[]) => {
      if (life.steps-- <= 0) return Promise.reject(new Error('killed'));
      return (real[name] as (...words: unknown[]) => Promise<unknown>)(...words);
    },
  ]);
  return { ...real, ...Object.fromEntries(mocked) };
});

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-place-'));
  mkdirSync(join(folder, 'work'));
});
afterEach(() => {
  life.steps = Number.POSITIVE_INFINITY;
  rmSync(folder, { recursive: true, force: true });
});

const NAME = 'leaf/ripple-1.png';
const address = (word: string) => sha256(`address of ${word}`);

/** An item whose picture is a word. */
async function place(word: string, overwrite = false): Promise<unknown> {
  const from = `work/${address(word)}.png`;
  writeFileSync(join(folder, from), word);
  const item = {
    name: NAME,
    address: address(word),
    labels: {},
    tile: { shown: 'leaf.png' },
    inputs: {},
    steps: [],
  };
  const rendered = {
    bytes: word.length,
    facts: {
      picture: { widthPx: 1, heightPx: 1 },
      seams: { closes: true, summary: '' },
      tileSeams: { closes: true, summary: '' },
      notes: [],
      reports: [],
    },
  };
  return placeItem(item as unknown as Item, rendered as unknown as RenderedItem, {
    folder,
    from,
    overwrite,
    standing: await standing(word),
    milliseconds: {},
    attempts: 1,
  });
}

function standing(word: string, verify = false): Promise<Standing> {
  return standingOf(join(folder, NAME), address(word), verify);
}

/** Every file that is not in the work folder. */
function contents(): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => !name.startsWith('work') && statSync(join(folder, name)).isFile())
    .map((name) => readFileSync(join(folder, name), 'utf8'));
}

function put(name: string, text: string): void {
  mkdirSync(join(folder, name, '..'), { recursive: true });
  writeFileSync(join(folder, name), text);
}

/** What may stand under a name before: how it comes there, and what of it must never be lost. */
const BEFORE: Readonly<
  Record<string, { prepare(): Promise<unknown> | unknown; keeps?: string; overwrite?: boolean }>
> = {
  nothing: { prepare: () => {} },
  'a render from other inputs': { prepare: () => place('old') },
  'a render that was worked on': {
    prepare: async () => {
      await place('old');
      put(NAME, 'by hand');
    },
    keeps: 'by hand',
  },
  'a picture with an empty sidecar': {
    prepare: () => {
      put(NAME, 'whose');
      put(`${NAME}.json`, '');
    },
    keeps: 'whose',
  },
  'a picture with a sidecar cut short': {
    prepare: async () => {
      await place('old');
      put(`${NAME}.json`, readFileSync(join(folder, `${NAME}.json`), 'utf8').slice(0, 100));
    },
    keeps: 'old',
  },
  'a JSON of somebody else': { prepare: () => put(`${NAME}.json`, '{"mine":1}'), keeps: '{"mine":1}' },
  'the render without its sidecar': { prepare: () => put(NAME, 'new') },
  'a picture of somebody else that may be replaced': {
    prepare: () => put(NAME, 'theirs'),
    overwrite: true,
    keeps: 'theirs',
  },
};

describe.each(Object.entries(BEFORE))('where there is %s', (_, { prepare, keeps, overwrite }) => {
  it('a kill at any step leaves what the next run makes whole, and nothing is lost', async () => {
    let kills = 0;
    for (let isDone = false; !isDone; kills++) {
      rmSync(folder, { recursive: true, force: true });
      mkdirSync(join(folder, 'work'), { recursive: true });
      await prepare();
      life.steps = kills;
      isDone = await place('new', overwrite).then(
        () => true,
        () => false,
      );
      life.steps = Number.POSITIVE_INFINITY;
      if (keeps !== undefined) expect(contents(), `killed at step ${kills}`).toContain(keeps);
      const found = await standing('new', true);
      if (found.kind !== 'made') await place('new', overwrite);
      expect(await standing('new', true), `killed at step ${kills}`).toMatchObject({ kind: 'made' });
      expect(readFileSync(join(folder, NAME), 'utf8')).toBe('new');
      if (keeps !== undefined) expect(contents(), `killed at step ${kills}`).toContain(keeps);
    }
    expect(kills).toBeGreaterThan(4);
  });
});

describe('a picture without a record', () => {
  it('that is not the render itself is refused, and stays', async () => {
    put(NAME, 'theirs');
    await expect(place('new')).rejects.toMatchObject({
      received: 'a file without the record that this program leaves beside its pictures',
    });
    expect(contents()).toEqual(['theirs']);
  });

  it('is said to be perhaps an older render, and what --overwrite does with it', async () => {
    await place('old');
    rmSync(join(folder, `${NAME}.json`));
    const fault = (await place('new').catch((error) => error)) as Error & { remedy: string };
    expect(fault.remedy).toMatch(/older render.*--overwrite.*kept beside/);
    await place('new', true);
    expect(contents().sort()).toEqual(expect.arrayContaining(['new', 'old']));
  });

  it.each(['folder', 'pipe'])('that is a %s is never replaced', async (what) => {
    if (what === 'folder') mkdirSync(join(folder, NAME), { recursive: true });
    else {
      put(NAME, '');
      rmSync(join(folder, NAME));
      execFileSync('mkfifo', [join(folder, NAME)]);
    }
    for (const overwrite of [false, true]) {
      await expect(place('new', overwrite)).rejects.toMatchObject({ name: 'Fault', kind: 'output' });
    }
    expect(readdirSync(join(folder, 'leaf'))).toEqual(['ripple-1.png']);
  });
});

it('a render between its record and its picture is the old one, not one that was worked on', async () => {
  await place('old');
  // Up to the last step but one.
  let steps = 0;
  for (; ; steps++) {
    life.steps = steps;
    const isDone = await place('new').then(
      () => true,
      () => false,
    );
    life.steps = Number.POSITIVE_INFINITY;
    if (isDone) break;
    expect(['old', 'free']).toContain((await standing('new')).kind);
  }
  expect(readdirSync(join(folder, 'leaf')).sort()).toEqual(['ripple-1.png', 'ripple-1.png.json']);
});
