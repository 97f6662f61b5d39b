// npm run kernels: compiles each NAME.as.ts to WebAssembly and writes it beside as NAME-kernel.ts.
import { readdirSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import asc from 'assemblyscript/asc';

const root = join(fileURLToPath(import.meta.url), '../..');

/** All kernels of the house, from its root. */
export const KERNELS = ['plugins', 'src'].flatMap((room) =>
  readdirSync(join(root, room), { recursive: true })
    .filter((path) => path.endsWith('.as.ts'))
    .map((path) => join(room, path)),
);

/** The module that carries a kernel: the same bytes on every machine, as the compiler itself is WebAssembly. */
export async function makeKernel(source) {
  let bytes;
  const wanted = ['--outFile', 'kernel.wasm', '-O3', '--noAssert', '--runtime', 'stub', '--enable', 'simd'];
  const { error, stderr } = await asc.main([source, '--baseDir', root, ...wanted], {
    writeFile: (_name, contents) => {
      bytes = contents;
    },
  });
  if (error) throw new Error(`${source} does not compile:\n${stderr.toString()}`);
  const text = Buffer.from(bytes).toString('base64');
  return `// Made of ${basename(source)} by "npm run kernels".\n\nexport const KERNEL =\n  '${text}';\n`;
}

/** Where it stands. */
export function moduleOf(source) {
  return join(root, source.replace(/\.as\.ts$/, '-kernel.ts'));
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  for (const source of KERNELS) writeFileSync(moduleOf(source), await makeKernel(source));
