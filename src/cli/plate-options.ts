import { Fault } from '../fault.ts';
import { millimetresOf } from '../repeat/length.ts';
import { numberBetween } from './options.ts';

/** mm of a trap. @throws Fault (usage) for what is no width above 0. */
export function parseTrap(text: string): number {
  const mm = millimetresOf(text);
  if (mm !== undefined && mm > 0) return mm;
  throw new Fault({
    kind: 'usage',
    expected: 'a width above 0 with its unit (mm, cm or in)',
    subject: '--trap',
    received: `"${text}"`,
    remedy: 'Write for example 0.2mm.',
  });
}

/** Lines or rows of dots per cm: `24` or `24/cm`. @throws Fault (usage) for anything else. */
export function parseRuling(text: string): number {
  return numberBetween(text.replace(/\s*(\/\s*|per )cm\s*$/, ''), 1, 400, '--ruling');
}

/** Degrees: `22`, `22deg` or `22°`. @throws Fault (usage) for anything else. */
export function parseAngle(text: string): number {
  return numberBetween(text.replace(/\s*(°|deg)\s*$/, ''), -360, 360, '--angle');
}

/** Names with commas between. */
export function namesOf(text: string): string[] {
  return text
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '');
}
