import { Fault } from '../fault.ts';
import { requirePositive } from './require.ts';

/** The share of the largest stable step that is taken where an author names none. */
const CAUTION = 0.9;

/** Steps of equal length that fill a duration. */
export interface Steps {
  readonly count: number;
  readonly length: number;
}

/**
 * Cuts a duration into steps no longer than `wanted`, or than what is safely stable.
 *
 * @param stable The largest stable step.
 * @throws Fault (effect) where `wanted` is larger: it names the largest stable step.
 */
export function cutIntoSteps(subject: string, duration: number, stable: number, wanted?: number): Steps {
  requirePositive(duration, `the duration of ${subject}`);
  if (wanted !== undefined) requirePositive(wanted, `the time step of ${subject}`);
  if (wanted !== undefined && wanted > stable) {
    throw unstable(subject, stable, `${wanted}`);
  }
  const count = Math.ceil(duration / (wanted ?? CAUTION * stable) - 1e-9);
  return { count, length: duration / count };
}

/** The Fault of a step that makes values swing ever wider. */
export function unstable(subject: string, stable: number, received: string): Fault {
  // Rounded down, or what the message names would be refused in its turn.
  const unit = 10 ** (Math.floor(Math.log10(stable)) - 3);
  const safe = Number((Math.floor(stable / unit) * unit).toPrecision(4));
  return new Fault({
    kind: 'effect',
    expected: `a time step of at most ${safe}, the largest that is stable`,
    subject,
    received,
    remedy: 'Take a smaller time step, larger cells or a smaller diffusion; or name no time step.',
  });
}
