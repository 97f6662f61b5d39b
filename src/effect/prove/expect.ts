import type { AnyEffect } from '../effect.ts';
import { type ProveOptions, proveEffect } from './prove.ts';
import type { ProofReport } from './report.ts';
import { describeTrial } from './trial.ts';

/**
 * For a test of an effect: passes where the effect is proven.
 *
 * @throws Error that lists every failure with its setting.
 */
export async function expectProven(effect: AnyEffect, options: ProveOptions = {}): Promise<ProofReport> {
  const report = await proveEffect(effect, options);
  if (!report.proven) throw new Error(describeFailures(report));
  return report;
}

/** Every failure of a report in words, and what was not reached. */
export function describeFailures({ effect, version, results }: ProofReport): string {
  const lines = results.flatMap((result) =>
    result.status === 'failed'
      ? [`${result.check}: ${result.failure.sentence}\n    with ${describeTrial(result.failure.setting)}`]
      : [],
  );
  const missed = describeNotReached(results);
  const head = lines.length > 0 ? 'does not keep its contract:' : 'is not proven:';
  return [
    `${effect} ${version} ${head}`,
    ...lines,
    ...(missed === undefined ? [] : [`not finished: ${missed}`]),
  ].join('\n  ');
}

/** `seam and cost were not reached: the 300 s of the proof were over`; nothing where all were. */
export function describeNotReached(results: ProofReport['results']): string | undefined {
  const missed = results.filter((result) => result.status === 'not reached');
  if (missed.length === 0) return undefined;
  const names = missed.map(({ check }) => check);
  const list = [names.slice(0, -1).join(', '), names.at(-1)].filter((part) => part).join(' and ');
  return `${list} ${missed.length === 1 ? 'was' : 'were'} not reached: ${missed[0].note}`;
}
