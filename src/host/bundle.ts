import { basename } from 'node:path';
import { type BuildFailure, build, type Message } from 'esbuild';
import { Fault } from '../fault.ts';
import { publicEntry } from './root.ts';

/**
 * Compiles a TypeScript or JavaScript module and all it imports into one module text. "tenter" is
 * this host's own public entry, so a plugin folder needs no installed copy of it.
 *
 * @throws Fault (effect) with file, line and excerpt where the code does not compile.
 */
export async function bundleModule(entry: string): Promise<string> {
  try {
    const { outputFiles } = await build({
      entryPoints: [entry],
      bundle: true,
      write: false,
      format: 'esm',
      platform: 'node',
      target: 'node20',
      sourcemap: 'inline',
      sourcesContent: false,
      logLevel: 'silent',
      alias: { tenter: publicEntry },
    });
    return outputFiles[0].text;
  } catch (error) {
    throw compileFault(entry, (error as BuildFailure).errors ?? [], error);
  }
}

function compileFault(entry: string, messages: readonly Message[], cause: unknown): Fault {
  const first = messages[0];
  const place = first?.location
    ? `${basename(first.location.file)}, line ${first.location.line}: "${first.location.lineText.trim()}"`
    : basename(entry);
  return new Fault({
    kind: 'effect',
    expected: 'a module that compiles',
    subject: entry,
    received: first ? `${first.text} (${place})` : String(cause),
    remedy: 'Mend that line and run again.',
    cause,
  });
}
