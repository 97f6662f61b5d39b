import { readdir, readFile } from 'node:fs/promises';
import { basename, extname, join } from 'node:path';
import { Hono } from 'hono';
import { isBuilt, packageRoot } from '../../host/code/root.ts';

/** What a browser loads before it knows the key: code and dress, no data. */
export type Shell = ReadonlyMap<string, { readonly bytes: Uint8Array<ArrayBuffer>; readonly type: string }>;

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.woff2': 'font/woff2',
  '.svg': 'image/svg+xml',
};

const VIEW = join(packageRoot, 'src/page/view');

/** The page as it was built; from source it is built first. All of it is held in memory: no request reaches a file. */
export async function readShell(): Promise<Shell> {
  const files = isBuilt ? await builtFiles() : await madeFiles();
  const known = files.filter(({ name }) => extname(name) in TYPES);
  return new Map(
    known.map(({ name, bytes }) => [
      name === 'index.html' ? '/' : `/${name}`,
      { bytes: new Uint8Array(bytes), type: TYPES[extname(name)] },
    ]),
  );
}

/** Serves the shell by the names that it has, and nothing else. */
export function serveShell(shell: Shell): Hono {
  const app = new Hono();
  app.get('*', (context) => {
    const file = shell.get(context.req.path);
    if (!file) return context.text('There is nothing of that name here.', 404);
    return context.body(file.bytes, 200, { 'Content-Type': file.type });
  });
  return app;
}

interface ShellFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Beside it lies the page of a collection. */
const OWN = /^(index\.html|icon\.svg|live\.(js|css)|.*\.woff2)$/;

async function builtFiles(): Promise<ShellFile[]> {
  const folder = join(packageRoot, 'dist/page');
  const names = (await readdir(folder)).filter((name) => OWN.test(name));
  return Promise.all(names.map(async (name) => ({ name, bytes: await readFile(join(folder, name)) })));
}

async function madeFiles(): Promise<ShellFile[]> {
  const { build } = await import('esbuild');
  const { outputFiles } = await build({
    entryPoints: { live: join(VIEW, 'main.tsx') },
    bundle: true,
    write: false,
    format: 'iife',
    target: 'es2022',
    minify: true,
    platform: 'browser',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    loader: { '.woff2': 'file' },
    assetNames: '[name]',
    outdir: 'page',
    logLevel: 'silent',
  });
  const made = outputFiles.map(({ path, contents }) => ({ name: basename(path), bytes: contents }));
  const asIs = ['index.html', 'icon.svg'].map(async (name) => ({
    name,
    bytes: await readFile(join(VIEW, name)),
  }));
  return [...made, ...(await Promise.all(asIs))];
}
