import { type Inputs, isPictureInputs, type StepInputs } from '../plan/identity.ts';

/** A step of a recipe in words. */
export interface StepWords {
  /** Effect and preset. */
  readonly title: string;
  /** Label and value of each setting. */
  readonly rows: readonly (readonly [string, string])[];
}

/** The settings of a variant, step by step. */
export function settingsOf(inputs: Inputs | undefined): StepWords[] {
  return (inputs?.steps ?? []).map((step) => ({ title: titleOf(step), rows: rowsOf(step) }));
}

function titleOf({ effect, preset }: StepInputs): string {
  return preset === undefined ? effect : `${effect}, ${preset}`;
}

function rowsOf({ parameters, seed, blend, opacity, paper, mask }: StepInputs): [string, string][] {
  const rows = Object.entries(parameters ?? {}).map(([name, value]): [string, string] => [
    name,
    Array.isArray(value) ? value.map(wordOf).join(', ') : wordOf(value),
  ]);
  rows.push(
    ['seed', wordOf(seed)],
    ['blend', wordOf(blend)],
    ['opacity', wordOf(opacity)],
    ['paper', wordOf(paper)],
  );
  if (mask)
    rows.push([
      'mask',
      Object.entries(mask)
        .map(([name, value]) => `${name} ${wordOf(value)}`)
        .join(', '),
    ]);
  return rows;
}

function wordOf(value: unknown): string {
  if (isPictureInputs(value))
    return value.stated === undefined ? value.name : `${value.name}@${value.stated}`;
  if (typeof value === 'number') return String(Number(value.toPrecision(6)));
  return typeof value === 'string' ? value : JSON.stringify(value);
}
