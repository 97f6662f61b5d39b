import { lockLanguage } from './worker-lock.ts';
import { lockGlobals, lockNode } from './worker-lock-node.ts';

let isLocked = false;

/**
 * Locks what all effects of this thread share before the first module of somebody else is run. The
 * effects that come with the host alter nothing, and wait for no lock.
 *
 * @param ownModules How the URLs of the host's own effects begin; absent where none is known by its URL.
 */
export function lockBefore(moduleUrl: string, ownModules: string | undefined): void {
  if (isLocked || (ownModules !== undefined && moduleUrl.startsWith(ownModules))) return;
  isLocked = true;
  lockLanguage();
  lockNode();
  lockGlobals();
}
