// Builds the package into dist/: the public entry, the host, its worker, the command, the effects, the types.
import { execFileSync } from 'node:child_process';
import { chmodSync, cpSync, existsSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
process.chdir(root);
// Built beside and put in its place when whole: a build that fails leaves the last one, and one that
// runs meanwhile is not pulled apart.
const made = `dist-${process.pid}`;
process.on('exit', () => rmSync(made, { recursive: true, force: true }));

const shared = { bundle: true, format: 'esm', target: 'node20', logLevel: 'warning' };

await build({
  ...shared,
  entryPoints: [
    'src/index.ts',
    'src/render/index.ts',
    'src/inspect/index.ts',
    'src/host/index.ts',
    'src/host/threads/prove-worker.ts',
    'src/effect/prove/index.ts',
    'src/collection/index.ts',
    'src/cli/main.ts',
  ],
  outbase: 'src',
  outdir: made,
  splitting: true,
  packages: 'external',
  platform: 'node',
  chunkNames: 'chunks/[name]-[hash]',
});
chmodSync(`${made}/cli/main.js`, 0o755);

// Every render starts threads anew: each reads one file, where packages and chunks cost it a third of its start.
await build({
  ...shared,
  entryPoints: ['src/host/threads/worker.ts', 'src/host/threads/hand-worker.ts'],
  outdir: `${made}/host/threads`,
  platform: 'node',
});

// Effects carry all they import, as a stranger's plugin does once it is compiled.
const effects = readdirSync('plugins').filter((name) => existsSync(`plugins/${name}/index.ts`));
for (const folder of effects) {
  await build({
    ...shared,
    entryPoints: [`plugins/${folder}/index.ts`],
    outfile: `${made}/plugins/${folder}/index.js`,
    alias: { tenter: join(root, 'src/index.ts') },
    platform: 'neutral',
    mainFields: ['module', 'main'],
  });
  // What its picture parameters begin with.
  for (const file of readdirSync(`plugins/${folder}`))
    if (/\.(png|jpe?g|webp|tiff?)$/i.test(file))
      cpSync(`plugins/${folder}/${file}`, `${made}/plugins/${folder}/${file}`);
}

// What they say of themselves, so that a command need not import them all to use one.
const { checkEffect } = await importMade('render/index.js');
const { describeEffect, readPresets } = await importMade('host/index.js');
const descriptions = [];
for (const folder of effects) {
  const module = await importMade(`plugins/${folder}/index.js`);
  const effect = describeEffect(checkEffect(module.default, folder));
  descriptions.push({ folder, effect, presets: await readPresets(`presets/${effect.name}`, effect) });
}
writeFileSync(`${made}/plugins/descriptions.json`, JSON.stringify(descriptions));

// What the page of a collection runs in a browser, and is dressed in.
await build({
  ...shared,
  entryPoints: ['src/collection/page/main.ts'],
  outdir: `${made}/page`,
  format: 'iife',
  target: 'es2022',
  minify: true,
});

// The live page: its shell holds no data.
await build({
  ...shared,
  entryPoints: { live: 'src/page/view/main.tsx' },
  outdir: `${made}/page`,
  format: 'iife',
  target: 'es2022',
  platform: 'browser',
  minify: true,
  jsx: 'automatic',
  jsxImportSource: 'preact',
  loader: { '.woff2': 'file' },
  assetNames: '[name]',
});
for (const name of ['index.html', 'icon.svg']) cpSync(`src/page/view/${name}`, `${made}/page/${name}`);

// What "tenter start" begins with, as it is.
cpSync('src/host/author/start', `${made}/start`, { recursive: true });

// The demo draws its own artwork; it is part of the repository, not of the package.
await build({
  ...shared,
  entryPoints: ['gallery/run.ts', 'gallery/make.ts', 'gallery/draw.ts', 'gallery/swatches.ts'],
  outdir: `${made}/gallery`,
  packages: 'external',
  platform: 'node',
  splitting: true,
  alias: { 'tenter/host': join(root, 'src/host/index.ts'), tenter: join(root, 'src/index.ts') },
});

execFileSync(
  process.execPath,
  ['node_modules/typescript/bin/tsc', '-p', '.build/types.json', '--outDir', `${made}/types`],
  { stdio: 'inherit' },
);

rmSync('dist', { recursive: true, force: true });
renameSync(made, 'dist');

function importMade(file) {
  return import(pathToFileURL(join(root, made, file)).href);
}
