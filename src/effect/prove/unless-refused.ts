import { Refused } from './failed.ts';

/** What some work gives, or nothing where the effect refuses the setting, which it may. */
export async function unlessRefused<T>(work: () => Promise<T>): Promise<T | undefined> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof Refused) return undefined;
    throw error;
  }
}
