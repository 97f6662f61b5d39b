import type { Report } from '../../../effect/effect.ts';
import { trimNumber } from '../../../repeat/length.ts';
import type { WorkStep } from '../../words/work.ts';
import { usePage } from '../state/context.ts';

/** What the effect has to say of what came, such as threads that were counted to close. */
export function Reports({ step }: { step: WorkStep }) {
  const { facts } = usePage().looking;
  const { look, laidOn } = facts.value ?? {};
  const reports = look?.reports[step.id] ?? [];
  const share = laidOn?.[step.id];
  const words = [
    ...reports.filter(isNews).map(reportWords),
    ...(share === undefined ? [] : [`it lies on ${trimNumber(share * 100, 1)} % of the cloth`]),
  ];
  if (step.held || words.length === 0) return null;
  return <p class="quiet">{sentence(words.join('; '))}</p>;
}

/** True where what came reads otherwise than what was asked. */
function isNews({ value, asked }: Report): boolean {
  if (asked === undefined) return false;
  return (
    typeof value !== 'number' ||
    typeof asked !== 'number' ||
    Math.abs(value - asked) >= 0.01 * Math.abs(asked)
  );
}

function reportWords({ name, value, unit, asked }: Report): string {
  const figure = (one: number | string) =>
    `${typeof one === 'number' ? trimNumber(one, 2) : one}${unit ? ` ${unit}` : ''}`;
  return `${name} came to ${figure(value)} where ${figure(asked!)} was asked`;
}

function sentence(words: string): string {
  return `${words[0].toUpperCase()}${words.slice(1)}.`;
}
