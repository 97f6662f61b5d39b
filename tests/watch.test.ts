import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, it } from 'vitest';

const command = fileURLToPath(new URL('../dist/cli/main.js', import.meta.url));
let folder: string;
let watching: ChildProcess;
let said = '';
let told = 0;
let wake: () => void = () => {};

function hear(text: unknown): void {
  said += String(text);
  wake();
}

/** Waits until the command has said what `words` match, after all that was waited for before. */
async function until(words: RegExp): Promise<RegExpExecArray> {
  for (;;) {
    const found = words.exec(said.slice(told));
    if (found) {
      told += found.index + found[0].length;
      return found;
    }
    await new Promise<void>((resolve, reject) => {
      const timer = setTimeout(
        () => reject(new Error(`${words} did not come in:\n${said.slice(told)}`)),
        30_000,
      );
      wake = () => {
        clearTimeout(timer);
        resolve();
      };
    });
  }
}

/** An effect of one grey; `paint`, `top` and `prepare` are what an author may have written so far. */
function save({ depth = 0.5, top = '', prepare = '', paint = '' } = {}): void {
  writeFileSync(
    join(folder, 'wash/index.ts'),
    `import { defineEffect, numeric } from 'tenter';
import { half } from '../shared/half.ts';
${top}
export default defineEffect({
  apiVersion: 1, name: 'wash', version: '1.0.0', summary: 'A wash.',
  parameters: { depth: numeric({ unit: 'ratio', min: 0, max: 1, default: ${depth}, help: 'How dark.' }) },
  planes: ['shade'],
  prepare(setting) { ${prepare}; return { depth: setting.parameters.depth * 2 * half }; },
  paint(model, band, layer) {
    ${paint}
    layer.shade.fill(model.depth);
  },
});`,
  );
}

function saveShared(half: number): void {
  writeFileSync(join(folder, 'shared/half.ts'), `export const half = ${half};`);
}

async function greyOfPreview(): Promise<number> {
  const { channels } = await sharp(readFileSync(join(folder, 'wash/preview.png'))).stats();
  return channels[0].mean;
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-watch-'));
  mkdirSync(join(folder, 'wash/presets'), { recursive: true });
  mkdirSync(join(folder, 'shared'));
  saveShared(0.5);
  save();
  const flags = ['--trust', '--size', '20x20mm', '--time-limit', '2', '--workers', '2'];
  watching = spawn(process.execPath, [command, 'watch', './wash', ...flags], { cwd: folder });
  watching.stdout!.on('data', hear);
  watching.stderr!.on('data', hear);
});
afterAll(() => {
  watching.kill('SIGKILL');
  rmSync(folder, { recursive: true, force: true });
});

it('draws with every save, survives whatever is saved, and needs no restart', async () => {
  await until(
    /wash 1\.0\.0 drawn as a sketch in [\d.]+ s[\s\S]*shade: 0\.5 to 0\.5, mean 0\.5[\s\S]*seams: Closes[\s\S]*the first picture/,
  );
  // Linear light 0.5 of white, encoded after IEC 61966-2-1.
  expect(await greyOfPreview()).toBeCloseTo(188, 0);

  save({ depth: 0.25 });
  await until(
    /index\.ts changed: wash 1\.0\.0 drawn[\s\S]*shade: 0\.25 to 0\.25[\s\S]*changed in 100 % of its pixels, by 51 of 255/,
  );
  expect(await greyOfPreview()).toBeCloseTo(137, 0);

  save({ depth: 0.25, top: '// a remark' });
  await until(/index\.ts changed: wash[\s\S]*the picture is the same/);

  saveShared(1);
  await until(/half\.ts changed: wash[\s\S]*shade: 0\.5 to 0\.5/);
  saveShared(0.5);
  await until(/half\.ts changed: wash[\s\S]*shade: 0\.25 to 0\.25/);

  save({ top: 'const = 4;' });
  await until(
    /index\.ts changed: not drawn\s+Expected a module that compiles .* line 3: "const = 4;"[\s\S]*save again/,
  );
  expect(await greyOfPreview()).toBeCloseTo(137, 0);
  save();
  await until(/drawn as a sketch[\s\S]*shade: 0\.5 to/);

  save({ paint: 'throw new RangeError("no ink");' });
  await until(
    /not drawn\s+Expected paint to finish for effect wash 1\.0\.0 but received RangeError: no ink.*\s+at .*index\.ts:10/,
  );
  save({ paint: 'layer.shade[3] = NaN; layer.shade = null;' });
  await until(/not drawn\s+Expected paint to finish .* TypeError/);
  // A misspelt name is named, and what is no number closes over nothing.
  save({ prepare: 'return { depth: setting.parameters.dept * half }' });
  await until(
    /not drawn\s+Expected prepare to finish .* it reads parameters\.dept, which is not declared.* Did you mean "depth"\?/,
  );
  save({ paint: 'layer.shade.fill(NaN); return;' });
  const [spoilt] = await until(/drawn as a sketch[\s\S]*?the picture/);
  expect(spoilt).toContain('VALUES ARE NO FINITE NUMBERS');
  expect(spoilt).toMatch(/seams: not looked at, for there are values that are no finite numbers/);
  save({ depth: 0.75 });
  await until(/drawn as a sketch[\s\S]*shade: 0\.75 to/);

  save({ paint: 'for (;;) {}' });
  await until(
    /not drawn\s+Expected paint to finish for effect wash 1\.0\.0 but received no progress for 2 s/,
  );
  save({ top: 'for (;;) {}' });
  await until(/not drawn\s+Expected a module that loads .* no progress for 2 s/);
  save({ prepare: 'setTimeout(() => { throw "later" }); for (let k = 0; k < 1e8; k++);' });
  await until(/drawn as a sketch|not drawn[\s\S]*later/);
  save({ depth: 0.25 });
  await until(/drawn as a sketch[\s\S]*shade: 0\.25 to/);

  writeFileSync(
    join(folder, 'wash/presets/pale.json'),
    '{ "effect": "wash", "summary": "", "parameters": {} }',
  );
  await until(/presets\/pale\.json changed: not drawn\s+Expected a preset/);
  rmSync(join(folder, 'wash/presets/pale.json'));
  await until(/presets\/pale\.json changed: wash/);

  rmSync(join(folder, 'wash/index.ts'));
  await until(/index\.ts changed: not drawn\s+Expected a plugin/);
  save({ depth: 0.5 });
  await until(/drawn as a sketch[\s\S]*shade: 0\.5 to/);

  // No thread can be kept from this.
  save({ top: 'process.kill(process.pid, "SIGKILL");' });
  await until(/the whole process was ended by the effect \(SIGKILL\)[\s\S]*watching/);
  save({ depth: 0.25 });
  await until(/index\.ts changed: wash[\s\S]*shade: 0\.25 to/);

  // A change ends the drawing that is under way, however long it may still take.
  save({ prepare: 'for (let k = 0;; k++) setting.progress(1 - 1 / (k + 1))' });
  await new Promise((done) => setTimeout(done, 700));
  save({ depth: 0.5 });
  await until(/index\.ts changed: wash[\s\S]*shade: 0\.5 to/);
  expect(await greyOfPreview()).toBeCloseTo(188, 0);

  const ended = new Promise((resolve) => watching.once('exit', resolve));
  watching.kill('SIGTERM');
  expect(await ended).toBe(0);
});
