import type { ParameterSet, ParameterValue } from '../effect/parameter.ts';
import { itemsOf } from '../effect/read-value.ts';
import { parseValue } from '../effect/values.ts';
import { isInkName } from '../host/ink/named-colours.ts';
import { findEffect, type Shelf } from '../host/plugins/shelf.ts';
import type { Assignment } from './options.ts';

/** Names of inks, as they stand: what they come to is told by the card in force, once it is known. */
function namesInInks(parameters: ParameterSet, name: string, text: string): ParameterValue | undefined {
  const kind = Object.hasOwn(parameters, name) ? parameters[name].kind : undefined;
  if (kind === 'colour') return isInkName(text) ? text.trim() : undefined;
  return kind === 'colours' && itemsOf(text).some(isInkName) ? itemsOf(text) : undefined;
}

/** The values of `--set name=value`, each read as its parameter says; the last of a name counts. */
export function assignedValues(
  shelf: Shelf,
  name: string,
  assignments: readonly Assignment[],
): Record<string, ParameterValue> {
  const { effect } = findEffect(shelf, name);
  const values = assignments.map(({ name: parameter, text }) => [
    parameter,
    namesInInks(effect.parameters, parameter, text) ??
      parseValue(effect.name, effect.parameters, parameter, text, effect.retired),
  ]);
  return Object.fromEntries(values);
}
