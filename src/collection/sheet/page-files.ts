import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { isBuilt, packageRoot } from '../../host/code/root.ts';

/** What the page runs and is dressed in. */
export interface PageFiles {
  readonly script: string;
  readonly style: string;
}

/** The page's own code, compiled with the package; from source it is compiled first. */
export async function pageFiles(): Promise<PageFiles> {
  if (isBuilt) {
    const read = (name: string) => readFile(join(packageRoot, 'dist/page', name), 'utf8');
    return { script: await read('main.js'), style: await read('main.css') };
  }
  const { build } = await import('esbuild');
  const { outputFiles } = await build({
    entryPoints: [join(packageRoot, 'src/collection/page/main.ts')],
    bundle: true,
    write: false,
    format: 'iife',
    target: 'es2022',
    minify: true,
    outdir: 'page',
    logLevel: 'silent',
  });
  const text = (ending: string) => outputFiles.find(({ path }) => path.endsWith(ending))!.text;
  return { script: text('.js'), style: text('.css') };
}
