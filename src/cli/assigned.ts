import type { ParameterValue } from '../effect/parameter.ts';
import { parseValue } from '../effect/values.ts';
import { findEffect, type Shelf } from '../host/plugins/shelf.ts';
import type { Assignment } from './options.ts';

/** The values of `--set name=value`, each read as its parameter says; the last of a name counts. */
export function assignedValues(
  shelf: Shelf,
  name: string,
  assignments: readonly Assignment[],
): Record<string, ParameterValue> {
  const { effect } = findEffect(shelf, name);
  const values = assignments.map(({ name: parameter, text }) => [
    parameter,
    parseValue(effect.name, effect.parameters, parameter, text, effect.retired),
  ]);
  return Object.fromEntries(values);
}
