import type { AnyEffect } from '../effect.ts';
import { type ProveOptions, proveEffect } from './prove.ts';
import type { CheckName, CheckResult, ProofReport } from './report.ts';
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
  const waiting = describeWaiting(results);
  const head = lines.length > 0 ? 'does not keep its contract:' : 'is not proven:';
  return [
    `${effect} ${version} ${head}`,
    ...lines,
    ...(waiting === undefined ? [] : [waiting]),
    ...(missed === undefined ? [] : [`not finished: ${missed}`]),
  ].join('\n  ');
}

/** `seam and cost were not reached: the 300 s of the proof were over`; nothing where all were. */
export function describeNotReached(results: ProofReport['results']): string | undefined {
  const missed = results.filter((result) => result.status === 'not reached');
  if (missed.length === 0) return undefined;
  return `${inWords(missed)} not reached: ${missed[0].note}`;
}

/** `seam and cost were not tried, and may fail too once "state" is kept`; nothing where none waits for another. */
export function describeWaiting(results: ProofReport['results']): string | undefined {
  const causes = new Map<CheckName, CheckResult[]>();
  for (const result of results) {
    if (result.status !== 'not applicable' || !result.waitsFor) continue;
    causes.set(result.waitsFor, [...(causes.get(result.waitsFor) ?? []), result]);
  }
  const parts = [...causes].map(
    ([cause, waiting]) => `${inWords(waiting)} not tried, and may fail too once "${cause}" is kept`,
  );
  return parts.length > 0 ? parts.join('; ') : undefined;
}

function inWords(results: readonly CheckResult[]): string {
  const names = results.map(({ check }) => check);
  const list = [names.slice(0, -1).join(', '), names.at(-1)].filter((part) => part).join(' and ');
  return `${list} ${names.length === 1 ? 'was' : 'were'}`;
}
