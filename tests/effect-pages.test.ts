import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CHECKS } from '../src/effect/prove/index.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
const command = join(root, 'dist/cli/main.js');
const page = readFileSync(join(root, 'plugins/README.md'), 'utf8');
const cookbook = readFileSync(join(root, 'plugins/COOKBOOK.md'), 'utf8');

interface Block {
  readonly section: string;
  readonly kind: string;
  /** The file that the block is written to, where it names one. */
  readonly file?: string;
  readonly code: string;
}

/** The fenced blocks of the page, each with the heading that it stands under. */
function blocksOf(text: string): Block[] {
  let section = '';
  const found: Block[] = [];
  for (const match of text.matchAll(/^## (.+)$|^```(\w+)(?: (\S+))?\n([\s\S]*?)^```$/gm)) {
    if (match[1]) section = match[1];
    else found.push({ section, kind: match[2], file: match[3], code: match[4] });
  }
  return found;
}

const blocks = blocksOf(page);
const recipes = blocksOf(cookbook);
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-page-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function write({ file, code }: Block): void {
  const path = join(folder, file!);
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, code);
}

/** Runs a line of the page as it stands; `tenter` is the built command. */
function run(line: string): string {
  const [name, ...args] = line.split(/\s+/);
  if (name === 'rm') {
    rmSync(join(folder, args[0]));
    return '';
  }
  expect(name, line).toBe('tenter');
  const { status, stdout, stderr } = spawnSync(process.execPath, [command, ...args], {
    cwd: folder,
    encoding: 'utf8',
    // Not the settings of whoever runs the tests.
    env: { ...process.env, XDG_CONFIG_HOME: join(folder, 'config'), TENTER_TRUST: '' },
  });
  expect(status, `${line}\n${stdout}${stderr}`).toBe(0);
  return stdout;
}

describe('the pages for writers of effects', () => {
  it('makes a first effect in ten steps, as printed', () => {
    const steps = blocks.filter(({ section }) => section === 'A first effect in ten steps');
    const printed: string[] = [];
    for (const block of steps) {
      if (block.kind === 'sh') printed.push(...block.code.trim().split('\n').map(run));
      else write(block);
    }
    const [, , open, closed, proof] = printed;
    expect(open).toContain('Open over straight');
    expect(closed).toContain('stripe 8.333 mm (asked 9)');
    expect(closed).toContain('Closes over brick:1/2');
    expect(proof).toContain('proven');
  }, 400_000);

  it.each(recipes.filter(({ file }) => file).map((block) => [block.file!, block] as const))(
    'has a recipe that is proven: %s',
    (file, block) => {
      write(block);
      expect(run(`tenter prove ./${dirname(file)} --trust --quick`)).toContain('proven');
    },
    400_000,
  );

  it('names every check of the kit and the promise it tries', () => {
    for (const { name, promise } of CHECKS)
      expect(page).toMatch(new RegExp(`\\| \`${name}\` +\\| ${promise.replace(/[.()]/g, '\\$&')} +\\|`));
  });

  it('is formatted as the house is', () => {
    for (const block of [...blocks, ...recipes].filter(({ kind, file }) => kind === 'ts' && file)) {
      const formatted = execFileSync(
        join(root, 'node_modules/.bin/biome'),
        ['format', '--config-path', root, '--stdin-file-path', join(root, 'src/page.ts')],
        { input: block.code, cwd: root, encoding: 'utf8' },
      );
      expect(formatted, block.file).toBe(block.code);
    }
  });
});
