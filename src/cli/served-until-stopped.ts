import type { LivePage } from '../page/index.ts';
import { showAddress } from './show-address.ts';
import { untilStopped } from './stop-signals.ts';

/** Serves a page until it is asked to end, which is how it is meant to end. */
export async function servedUntilStopped(page: LivePage, opensBrowser: boolean): Promise<never> {
  await untilStopped(async (signal) => {
    await showAddress(page.address, opensBrowser);
    if (!signal.aborted) await new Promise((done) => signal.addEventListener('abort', done, { once: true }));
    await page.close();
  });
  // Something that a plugin left running must not hold the process.
  process.exit(0);
}
