import type { AnyEffect } from '../effect.ts';
import type { Parameter, ParameterValue } from '../parameter.ts';
import type { Bench, Sample } from './bench.ts';
import { Failed, Refused } from './failed.ts';
import { HOME, type Trial } from './trial.ts';

/** A small box: trials that are many must each be cheap. */
export const SMALL: Trial = { ...HOME, width: 15, height: 11 };

/** The defaults, and each parameter by itself at each of its extremes. */
export function variants({ parameters }: AnyEffect, base: Trial = SMALL): Trial[] {
  const changes = Object.entries<Parameter>(parameters).flatMap(([name, parameter]) =>
    extremesOf(parameter)
      .filter((value) => value !== parameter.default)
      .map((value) => ({ ...base, parameters: { ...base.parameters, [name]: value } })),
  );
  return [base, ...changes];
}

function extremesOf(parameter: Parameter): readonly ParameterValue[] {
  switch (parameter.kind) {
    case 'number':
      return [parameter.min, parameter.max];
    case 'choice':
      return parameter.options;
    case 'switch':
      return [true, false];
    case 'colour':
      return ['#000000', '#ffffff'];
  }
}

/**
 * Every pair of parameters at every pair of their extremes, all parameters at once, in as few trials as a
 * two-level orthogonal array of strength 2 needs: the rows of a Hadamard matrix of Sylvester's construction,
 * whose entry (row, column) is the parity of the bits that both numbers have.
 */
export function pairs({ parameters }: AnyEffect, base: Trial = SMALL): Trial[] {
  const names = Object.keys(parameters);
  const rows = 2 ** Math.ceil(Math.log2(names.length + 1));
  return Array.from({ length: rows }, (_, row) => {
    const values = names.map((name, index) => {
      const extremes = extremesOf(parameters[name]);
      return [name, extremes[bitsOf(row & (index + 1)) % 2 === 0 ? 0 : extremes.length - 1]];
    });
    return { ...base, parameters: Object.fromEntries(values) };
  });
}

function bitsOf(value: number): number {
  return value === 0 ? 0 : (value & 1) + bitsOf(value >>> 1);
}

/**
 * Puts parameters back to their defaults, one by one, as long as the trial still fails.
 *
 * @param fails What a trial fails with, or nothing.
 */
export async function smallestFailure(
  trial: Trial,
  first: Failed,
  fails: (trial: Trial) => Promise<Failed | undefined>,
): Promise<Failed> {
  let [smallest, failed] = [trial, first];
  for (const name of Object.keys(trial.parameters)) {
    const { [name]: _, ...parameters } = smallest.parameters;
    const tried = { ...smallest, parameters };
    const still = await fails(tried);
    if (still) [smallest, failed] = [tried, still];
  }
  return failed;
}

/**
 * Prepares trials one after the other and looks at each. Those the effect refuses are passed over, but
 * not all of them may be.
 *
 * @returns How many were looked at and refused.
 */
export async function overTrials(
  bench: Bench,
  trials: readonly Trial[],
  look: (sample: Sample) => void | Promise<void>,
): Promise<{ tried: number; refused: number }> {
  let refusal: Refused | undefined;
  let refused = 0;
  for (const trial of trials) {
    try {
      await look(await bench.prepare(trial));
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      refusal = error;
      refused++;
    }
  }
  if (refusal && refused === trials.length) throw refusedAll(refusal);
  return { tried: trials.length - refused, refused };
}

function refusedAll(refusal: Refused): Failed {
  return new Failed(refusal.trial, {
    expected: 'at least one of the settings tried to be taken',
    received: `a refusal of each, the last: ${refusal.message.replace(/\.$/, '')}`,
    remedy: 'Refuse only what cannot be drawn.',
  });
}
