// Prints how often the seam check errs on the project's own test set (npm run seam-rates; some minutes).
import { build } from 'esbuild';

const outfile = 'dist/seam-rates.mjs';
await build({
  stdin: {
    resolveDir: 'tests/seams',
    contents: `
      import { casesOf, LAYOUTS } from './cases.ts';
      import { KINDS } from './kinds.ts';
      import { ratesOf, tableOf } from './rates.ts';
      import { formatLayout } from '../../src/repeat/index.ts';
      const wanted = ['straight', 'drop:1/2', 'mirror-xy', 'turn'];
      const layouts = LAYOUTS.filter((layout) => wanted.includes(formatLayout(layout)));
      function* cases() {
        for (const layout of layouts) for (const kind of KINDS) yield* casesOf(kind, layout, 'a');
      }
      console.log(tableOf(await ratesOf(cases())));`,
    loader: 'ts',
  },
  outfile,
  bundle: true,
  format: 'esm',
  platform: 'node',
  packages: 'external',
});
await import(new URL(`../${outfile}`, import.meta.url));
