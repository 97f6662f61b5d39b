/** Set to 1 for a command that the live page runs: its server hears how far it has come, and it ends with it. */
export const PARENT_VARIABLE = 'TENTER_TELLS_PARENT';

function hasParent(): boolean {
  return process.connected === true && process.env[PARENT_VARIABLE] === '1';
}

/** Tells the server that runs this command how far it has come, 0..1; nobody where there is none. */
export function tellParent(done: number): void {
  if (hasParent()) process.send?.({ done }, undefined, undefined, () => {});
}

/** Calls `stop` where that server has gone, however it went. @returns Ends the listening. */
export function onParentGone(stop: () => void): () => void {
  if (!hasParent()) return () => {};
  process.once('disconnect', stop);
  return () => void process.off('disconnect', stop);
}
