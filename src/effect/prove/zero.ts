import type { Parameter } from '../parameter.ts';
import { endsOf, isWithin } from '../value.ts';
import { differ, type Pictures } from './alive-pictures.ts';
import { Failed } from './failed.ts';

/** So little of a range beside 0 that nothing can be seen to change on the way. */
const HAIR = 1e-6;

/**
 * Where 0 gives the picture of the default and a hair beside it another one, the effect takes 0 for a value that was
 * not given.
 */
export async function tryZero(pictures: Pictures, name: string, parameter: Parameter): Promise<void> {
  const surrounding = pictures.showing.get(name);
  if (parameter.kind !== 'number' || parameter.default === 0 || !isWithin(parameter, 0) || !surrounding)
    return;
  const zero = await pictures.of(surrounding, name, 0);
  if (differ(zero, await pictures.of(surrounding, name, parameter.default))) return;
  const [min, max] = endsOf(parameter);
  const step = parameter.whole ? 1 : (max - min) * HAIR;
  const beside = max >= step ? step : -step;
  if (!differ(zero, await pictures.of(surrounding, name, beside))) return;
  throw new Failed(
    { ...surrounding, parameters: { ...surrounding.parameters, [name]: 0 } },
    {
      expected: `0 of ${name} to be a value like any other`,
      received: `at 0 the same picture as at its default, ${parameter.default}, though at ${beside} it is another`,
      remedy: `Do not write "${name} || ${parameter.default}", which takes 0 for nothing given: the host fills in defaults before prepare is called.`,
    },
  );
}
