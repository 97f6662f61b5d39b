import type { AnyEffect } from '../../effect/effect.ts';
import { type ProveOptions, proveBy } from '../../effect/prove/prove.ts';
import type { CheckName, CheckResult, ProofReport, Verdict } from '../../effect/prove/report.ts';
import { workerUrl } from '../code/worker-url.ts';
import type { Preset } from '../plugins/preset.ts';
import { CHECK_LIMITS, type CheckLimits, ProveThread } from '../threads/prove-thread.ts';

/** What of a loaded plugin has to be known to prove it. */
export interface ProvablePlugin {
  readonly effect: Pick<AnyEffect, 'name' | 'version'>;
  /** What a worker imports to have the effect. */
  readonly moduleUrl: string;
  readonly presets: readonly Pick<Preset, 'name' | 'parameters' | 'blend' | 'opacity'>[];
}

export interface ProvePluginOptions extends Pick<ProveOptions, 'checks' | 'quick' | 'onResult'> {
  readonly limits?: Partial<CheckLimits>;
  readonly signal?: AbortSignal;
}

/**
 * Holds a plugin to the contract of effects, check by check, in a thread with a limit of time and of
 * memory: an endless loop, a leak or a crash is a failure of the check that met it, and the others
 * are still tried. The whole proof has a limit too: what it does not reach is named in the report.
 */
export async function provePlugin(
  { effect, moduleUrl, presets }: ProvablePlugin,
  options: ProvePluginOptions = {},
): Promise<ProofReport> {
  const { quick, signal } = options;
  const url = await workerUrl('prove');
  const limits = { ...CHECK_LIMITS, ...options.limits };
  const threads = Array.from({ length: quick ? QUICK_HANDS : 1 }, () => new ProveThread(url, limits));
  const settings = presets.map(({ name, parameters, blend, opacity }) => ({
    name,
    parameters,
    blend,
    opacity,
  }));
  try {
    const now = () => performance.now();
    const report = await proveBy(
      effect,
      { ...options, now },
      ({ name: check }, hand) => threads[hand].run({ moduleUrl, check, quick, presets: settings }, signal),
      threads.length,
    );
    return withLate(report, threads);
  } finally {
    await Promise.all(threads.map((thread) => thread.close()));
  }
}

/**
 * A whole proof has one: what it watches the memory of is the process, which two checks over large boxes
 * would have to share.
 */
const QUICK_HANDS = 2;

/** An error may come of what a check left behind when its verdict is long given: the verdict is then another. */
function withLate(report: ProofReport, threads: readonly ProveThread[]): ProofReport {
  const results = report.results.map((result): CheckResult => {
    const late = result.status === 'passed' ? lateVerdict(threads, result.check) : undefined;
    const { check, promise, seconds } = result;
    return late ? { check, promise, ...late, seconds } : result;
  });
  return { ...report, results, proven: report.proven && results.every(({ status }) => status !== 'failed') };
}

function lateVerdict(threads: readonly ProveThread[], check: CheckName): Verdict | undefined {
  return threads.map((thread) => thread.lateVerdict(check)).find(Boolean);
}
