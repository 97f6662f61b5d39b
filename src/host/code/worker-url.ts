import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { bundleModule } from './bundle.ts';
import { isBuilt, packageRoot } from './root.ts';
import { scratchModule } from './scratch.ts';

/** What threads run: `paint` prepares and paints, `prove` tries effects, `hand` checks and resamples. */
const WORKERS = {
  paint: 'host/threads/worker',
  prove: 'host/threads/prove-worker',
  hand: 'host/threads/hand-worker',
} as const;

export type WorkerName = keyof typeof WORKERS;

const compiled = new Map<WorkerName, Promise<URL>>();

/** The module that threads of a kind run. Run from source, it is compiled first: Node 20 reads no TypeScript. */
export function workerUrl(name: WorkerName): Promise<URL> {
  const url = compiled.get(name) ?? findUrl(name);
  compiled.set(name, url);
  // What could not be compiled for want of room may be another time.
  url.catch(() => compiled.delete(name));
  return url;
}

async function findUrl(name: WorkerName): Promise<URL> {
  if (isBuilt) return pathToFileURL(join(packageRoot, 'dist', `${WORKERS[name]}.js`));
  return new URL(scratchModule(name, await bundleModule(join(packageRoot, 'src', `${WORKERS[name]}.ts`))));
}
