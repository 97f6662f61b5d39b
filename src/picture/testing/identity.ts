import { geteuid, seteuid } from 'node:process';

const NOBODY = 65_534;

/**
 * Runs something without the rights of root, which no permission stops.
 *
 * @returns False where that cannot be done here; nothing was run then.
 */
export async function withoutRoot(run: () => Promise<void>): Promise<boolean> {
  if (!geteuid || !seteuid) return false;
  const own = geteuid();
  if (own === 0) seteuid(NOBODY);
  try {
    await run();
  } finally {
    if (own === 0) seteuid(own);
  }
  return true;
}
