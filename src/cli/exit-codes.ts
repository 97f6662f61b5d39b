import type { FaultKind } from '../fault.ts';

/** What each exit code means; printed by --help. */
export const EXIT = {
  ok: 0,
  open: 1,
  usage: 2,
  input: 3,
  output: 4,
  effect: 5,
  partly: 6,
  bug: 70,
  cancelled: 130,
} as const;

export const EXIT_HELP = `Exit codes:
  0    done; for check and close: the picture closes over its layout; for prove: all is proven
  1    check, close: the picture does not close; prove: an effect does not keep the contract, or was not tried to the end
  2    a word, option or value is not right
  3    a picture, preset, recipe or plugin cannot be read, or the queue cannot be reached
  4    the result cannot be written
  5    an effect failed
  6    collect only: some renders failed or are left; all others are made
  70   a fault of tenter itself
  130  stopped by Ctrl-C; nothing half-made was written`;

/** The exit code for a fault of that kind. */
export function exitCodeOf(kind: FaultKind): number {
  return EXIT[kind];
}
