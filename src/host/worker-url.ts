import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { bundleModule } from './bundle.ts';
import { isBuilt, packageRoot } from './root.ts';
import { scratchModule } from './scratch.ts';

let compiled: Promise<URL> | undefined;

/** The module that worker threads run. Run from source, it is compiled first: Node 20 reads no TypeScript. */
export function workerUrl(): Promise<URL> {
  compiled ??= isBuilt
    ? Promise.resolve(pathToFileURL(join(packageRoot, 'dist/host/worker.js')))
    : bundleModule(join(packageRoot, 'src/host/worker.ts')).then(
        (code) => new URL(scratchModule('worker', code)),
      );
  return compiled;
}
