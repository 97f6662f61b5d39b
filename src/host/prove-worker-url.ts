import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { bundleModule } from './bundle.ts';
import { isBuilt, packageRoot } from './root.ts';
import { scratchModule } from './scratch.ts';

let compiled: Promise<URL> | undefined;

/** The module that threads of the conformance kit run. Run from source, it is compiled first. */
export function proveWorkerUrl(): Promise<URL> {
  compiled ??= isBuilt
    ? Promise.resolve(pathToFileURL(join(packageRoot, 'dist/host/prove-worker.js')))
    : bundleModule(join(packageRoot, 'src/host/prove-worker.ts')).then(
        (code) => new URL(scratchModule('prove-worker', code)),
      );
  return compiled;
}
