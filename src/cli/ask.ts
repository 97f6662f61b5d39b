import { createInterface } from 'node:readline/promises';
import { type ConsentOptions, PLUGIN_RIGHTS } from '../host/plugins/consent.ts';
import type { PluginPlace } from '../host/plugins/places.ts';
import { visible } from './visible.ts';

interface Terminal {
  readonly input: NodeJS.ReadableStream & { readonly isTTY?: boolean };
  readonly output: NodeJS.WritableStream & { readonly isTTY?: boolean };
  /** True where only a script listens. */
  readonly quiet?: boolean;
}

/**
 * Asks on a terminal whether plugins from new places may run.
 *
 * @returns Nothing where nobody is there to answer.
 */
export function askOnTerminal({
  input = process.stdin,
  output = process.stderr,
  quiet = false,
}: Partial<Terminal> = {}): ConsentOptions['ask'] {
  if (quiet || !input.isTTY || !output.isTTY) return undefined;
  return async (places) => {
    const asking = createInterface({ input, output });
    try {
      const answer = await answerOrEnd(asking, question(places));
      return /^y(es)?$/i.test(answer.trim());
    } finally {
      asking.close();
    }
  };
}

/** The end of the input, or Ctrl-C, is a no. */
function answerOrEnd(asking: ReturnType<typeof createInterface>, text: string): Promise<string> {
  return new Promise((resolve, reject) => {
    asking.once('close', () => resolve(''));
    asking.once('SIGINT', () => asking.close());
    asking.question(visible(text)).then(resolve, reject);
  });
}

function question(places: readonly PluginPlace[]): string {
  const list = places.map(({ id, entries }) => `  ${id} (${effectCount(entries.length)})`).join('\n');
  return `New here:\n${list}\n${PLUGIN_RIGHTS}\nRun it only if you trust who wrote it. Run it? [y/N] `;
}

function effectCount(count: number): string {
  return count === 1 ? 'one effect' : `${count} effects`;
}
