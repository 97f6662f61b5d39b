import type { CheckName, CheckResult, Failure, ProofReport } from '../effect/prove/report.ts';
import { isWritable } from '../effect/prove/seed-texts.ts';
import type { Trial } from '../effect/prove/trial.ts';
import { writtenValue } from '../effect/value.ts';
import { showsFault } from '../host/author/shows-fault.ts';
import type { ShelvedEffect } from '../host/plugins/shelf.ts';
import { groundFor } from '../render/ground.ts';
import { formatDensity } from '../repeat/length.ts';
import { withProofSwatches } from './proof-swatches.ts';

/** Commands that show a fault, each under what it is for. */
export type Ways = ReadonlyMap<CheckName, readonly (readonly [label: string, command: string])[]>;

/** What the commands have to say besides. */
export interface Asked {
  /** Where to look for the effect. */
  readonly places: readonly string[];
  readonly trust?: boolean;
  readonly quick?: boolean;
  /** Where the kit's own pictures are written, for effects that take some. */
  readonly out: string;
}

/** What is not kept where a texture drawn by itself comes out wrong; of the others there is nothing to see in one picture. */
const SEEN: readonly CheckName[] = ['runs', 'finite', 'periodic', 'seam', 'parameters', 'presets', 'seed'];

/**
 * A command for every failure: one that draws it, where the fault is seen there, which is tried; otherwise one that
 * proves the same check again.
 */
export async function waysToSee(
  { effect, results }: ProofReport,
  plugin: ShelvedEffect,
  asked: Asked,
  signal?: AbortSignal,
): Promise<Ways> {
  const plugins = asked.places.map((place) => `--plugins ${quoted(place)}`);
  const words = [effect, ...plugins, ...(asked.trust ? ['--trust'] : [])].join(' ');
  const ways = new Map<CheckName, readonly (readonly [string, string])[]>();
  for (const result of results) {
    if (result.status !== 'failed') continue;
    const drawn = await drawnBy(result, plugin, asked.out, signal);
    const commands = drawn.map((trial, index) => commandFor(words, trial, index));
    const again = `tenter prove ${words} --check ${result.check}${asked.quick ? ' --quick' : ''}`;
    const isOther = drawn[0] && drawn[0].quality !== result.failure.setting.quality;
    const labels = drawn.length > 1 ? ['see both', ''] : [isOther ? 'finished' : 'see it'];
    ways.set(
      result.check,
      commands.length > 0 ? commands.map((command, k) => [labels[k], command]) : [['again', again]],
    );
  }
  return ways;
}

/** The settings to draw so that the fault is seen: one, or two that have to be held against each other; or none. */
async function drawnBy(
  { check, failure }: CheckResult & { readonly status: 'failed' },
  plugin: ShelvedEffect,
  out: string,
  signal?: AbortSignal,
): Promise<readonly Trial[]> {
  const drawable = (trial: Trial) => withProofSwatches(trial, plugin.effect, out);
  const { setting, beside } = failure;
  if (![setting, ...(beside ? [beside] : [])].every(({ seed }) => isWritable(seed))) return [];
  if (beside) return Promise.all([beside, setting].map(drawable));
  if (!SEEN.includes(check)) return [];
  const ground = groundFor(plugin.effect);
  for (const tried of asDrawn(setting)) {
    const trial = await drawable(tried);
    if (await showsFault(plugin, trial, ground, signal)) return [trial];
  }
  return [];
}

/** The setting that failed; a sketch is drawn coarsely, so that a finer fault is seen in the finished texture alone. */
function asDrawn(setting: Failure['setting']): Trial[] {
  return setting.quality === 'sketch' ? [setting, { ...setting, quality: 'finished' }] : [setting];
}

/** The command that draws a setting; its picture is numbered where it is not the first. */
export function commandFor(
  effect: string,
  { layout, width, height, pixelsPerMm, seed, quality, parameters }: Trial,
  index = 0,
): string {
  const set = Object.entries(parameters).map(
    ([name, value]) => `--set ${quoted(`${name}=${writtenValue(value)}`)}`,
  );
  const density = formatDensity(pixelsPerMm).replace(' ', '');
  return [
    `tenter make ${effect} --size ${writtenValue(width)}x${writtenValue(height)}mm --layout ${layout} --dpi ${density} --fit`,
    ...(seed === '1' ? [] : [`--seed ${quoted(seed)}`]),
    ...set,
    ...(quality === 'sketch' ? ['--sketch'] : []),
    `--out failing${index > 0 ? `-${index + 1}` : ''}.png --overwrite`,
  ].join(' ');
}

function quoted(text: string): string {
  return /^[\w=./:-]+$/.test(text) ? text : `"${text}"`;
}
