import type { AnyEffect } from '../effect/effect.ts';
import type { Parameter, ParameterSet } from '../effect/parameter.ts';

/** What the host knows of an effect. Its code stays with the worker threads. */
export type EffectDescription = Pick<
  AnyEffect,
  | 'apiVersion'
  | 'name'
  | 'version'
  | 'summary'
  | 'sentences'
  | 'planes'
  | 'reads'
  | 'retired'
  | 'lightFrom'
  | 'blend'
> & { readonly parameters: ParameterSet };

/** The facts of an effect that keeps the contract, as plain data; whatever else it carries is left behind. */
export function describeEffect(effect: AnyEffect): EffectDescription {
  const { apiVersion, name, version, summary, sentences, planes, reads, retired, lightFrom, blend } = effect;
  const parameters = Object.entries<Parameter>(effect.parameters).map(([key, parameter]) => [
    key,
    describeParameter(parameter),
  ]);
  return {
    apiVersion,
    name,
    version,
    summary,
    sentences: sentences && [...sentences],
    planes: [...planes],
    reads: reads && [...reads],
    retired: retired && { ...retired },
    lightFrom,
    blend,
    parameters: Object.fromEntries(parameters),
  };
}

function describeParameter(parameter: Parameter): Parameter {
  const { help } = parameter;
  switch (parameter.kind) {
    case 'number': {
      const { kind, unit, min, max, whole } = parameter;
      return { kind, unit, min, max, default: parameter.default, help, ...(whole ? { whole } : {}) };
    }
    case 'choice':
      return { kind: 'choice', options: [...parameter.options], default: parameter.default, help };
    case 'colour':
      return { kind: 'colour', default: parameter.default, help };
    case 'switch':
      return { kind: 'switch', default: parameter.default, help };
    case 'numbers': {
      const { kind, unit, min, max, whole, least, most } = parameter;
      const usual = [...parameter.default];
      return { kind, unit, min, max, least, most, default: usual, help, ...(whole ? { whole } : {}) };
    }
    case 'colours': {
      const { kind, least, most } = parameter;
      return { kind, least, most, default: [...parameter.default], help };
    }
    case 'text': {
      const { kind, pattern, longest, say } = parameter;
      return { kind, pattern, longest, say, default: parameter.default, help };
    }
    case 'picture':
      return { kind: 'picture', default: parameter.default, help };
  }
}
