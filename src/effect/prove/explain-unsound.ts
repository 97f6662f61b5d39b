import { formatDensity, formatSize } from '../../repeat/length.ts';
import type { AnyLayer } from '../layer.ts';
import { spokenValue } from '../value.ts';
import { atDensity, type Bench, type Sample } from './bench.ts';
import { holdsNumber } from './compare.ts';
import { Crashed, Failed, Refused } from './failed.ts';
import { FoundUnsound, type UnsoundPlace } from './found-unsound.ts';
import { spokenSeed } from './seed-texts.ts';
import { clampRemedy, isUnsoundAt, unsoundIn } from './sound.ts';
import { HOME, type Trial } from './trial.ts';

/**
 * Looks what it is of a setting that leads to numbers that are not sound: each thing that is not usual is put
 * back by itself, and what cures it is named.
 *
 * @returns The same failure where it is of another kind, or where nothing by itself cures it.
 */
export async function explained(bench: Bench, failed: Failed): Promise<Failed> {
  if (failed instanceof Crashed) return ofItsValues(bench, failed);
  if (!(failed instanceof FoundUnsound)) return failed;
  const { layer, aside } = failed.found;
  const cause = aside ?? columnCause(layer) ?? (await causeOf(bench, failed.found));
  if (cause === undefined) return failed;
  const { expected, received, picture, setting, breaks } = failed.failure;
  return new Failed(setting, {
    expected,
    received,
    picture,
    breaks,
    remedy: `${cause} ${whereFrom(failed.found)}`,
  });
}

/** The parameters of a crash are those that it takes: others have been put back. */
function ofItsValues({ effect }: Bench, { failure }: Crashed): Failed {
  const { sentence: _, setting, remedy, ...parts } = failure;
  const entries = Object.entries(setting.parameters);
  if (entries.length === 0) return new Crashed(setting, { ...parts, remedy });
  const given = entries.map(([name, value]) => `${name}=${spokenValue(value)}`);
  const usual = entries.map(([name]) => `${name}=${spokenValue(effect.parameters[name].default)}`);
  const cause = `It comes of ${given.join(' and ')}: at ${usual.join(' and ')} it ends.`;
  return new Crashed(setting, { ...parts, remedy: `${cause} ${remedy}` });
}

type View = UnsoundPlace['view'];

/** What most often makes a number that is not finite. */
const DIVIDED = 'Look at what is divided by, or the root or logarithm taken of, at this value.';

async function causeOf(bench: Bench, { sample, view, value }: UnsoundPlace): Promise<string | undefined> {
  const curing: Cure[] = [];
  for (const cure of curesOf(bench, sample.trial)) {
    const isFirst = curing.length === 0;
    if (!isFirst && !cure.value) continue;
    if (!(await isSoundAt(bench, sample, cure.cured, view))) continue;
    curing.push(cure);
    if (!cure.value) break;
  }
  const [first] = curing;
  if (!first?.value) return first?.words;
  const words = curing.length > 1 ? ofTogether(curing) : first.words;
  return Number.isFinite(value) ? words : `${words} ${DIVIDED}`;
}

interface Cure {
  readonly cured: Trial;
  /** What it comes of, in sentences. */
  readonly words: string;
  /** Where it is a parameter that is put back, what it was at, as `height=0`. */
  readonly value?: string;
}

function ofTogether(curing: readonly Cure[]): string {
  const values = curing.map(({ value }) => value);
  return `It comes of ${values.slice(0, -1).join(', ')} and ${values[values.length - 1]} together: with any of them at its default all is well.`;
}

/** The likeliest first. */
function curesOf({ effect }: Bench, trial: Trial): Cure[] {
  const { width, height, pixelsPerMm, seed, layout, quality, parameters } = trial;
  const cures: Cure[] = [];
  const cure = (changed: Partial<Trial>, words: string, value?: string) =>
    cures.push({ cured: { ...trial, ...changed }, words, value });
  if (pixelsPerMm !== HOME.pixelsPerMm) cure({ pixelsPerMm: HOME.pixelsPerMm }, ofDensity(pixelsPerMm));
  if (seed !== HOME.seed) cure({ seed: HOME.seed }, ofSeed(seed));
  for (const [name, value] of Object.entries(parameters)) {
    const { [name]: _, ...others } = parameters;
    const usual = `${name}=${spokenValue(effect.parameters[name].default)}`;
    const given = `${name}=${spokenValue(value)}`;
    cure({ parameters: others }, `It comes of ${given}: at ${usual} all is well.`, given);
  }
  if (width !== HOME.width || height !== HOME.height)
    cure({ width: HOME.width, height: HOME.height }, ofSize(trial));
  if (layout !== HOME.layout)
    cure({ layout: HOME.layout }, `It comes of layout ${layout}: in ${HOME.layout} all is well.`);
  if (quality !== HOME.quality)
    cure(
      { quality: HOME.quality },
      'It comes of the quality: finished all is well, and only a sketch is not.',
    );
  return cures;
}

function ofDensity(pixelsPerMm: number): string {
  const usual = `at ${formatDensity(HOME.pixelsPerMm)} all is well`;
  const hint =
    pixelsPerMm > HOME.pixelsPerMm
      ? 'Look for a number of samples or a width in pixels that comes to 0 in fine pixels.'
      : 'Look for a number per pixel that comes to 0, or to more than a table holds, in coarse pixels.';
  return `It comes of the density, ${formatDensity(pixelsPerMm)}: ${usual}. ${hint}`;
}

function ofSeed(seed: string): string {
  return `It comes of seed ${spokenSeed(seed)}: at seed ${HOME.seed} all is well. A number that is drawn may be 0, as below(n) is once in n times, or may fall outside a table.`;
}

function ofSize(trial: Trial): string {
  const isLarge = trial.width > HOME.width || trial.height > HOME.height;
  const hint = isLarge
    ? 'Look for a table or a count that a large box is too much for: let it grow with the box.'
    : 'Look for a count that comes to 0 in a tiny box, as Math.floor(width / size) does: take at least 1; fieldShape counts so.';
  return `It comes of the size, ${formatSize(trial)}: at ${formatSize(HOME)} all is well. ${hint}`;
}

/** A buffer that is too short leaves all columns, or rows, from one on. */
function columnCause(layer: AnyLayer): string | undefined {
  const first = unsoundIn(layer);
  if (!first) return undefined;
  const isSideways = first.x >= LEAST_BUFFER && isAllFrom(layer, (x) => x >= first.x);
  if (isSideways) return inColumns('column', first.x, 'width');
  const isDown = first.y >= LEAST_BUFFER && isAllFrom(layer, (_, y) => y >= first.y);
  return isDown ? inColumns('row', first.y, 'height') : undefined;
}

/** px. Nobody makes a buffer shorter than this, and a smaller rest may be so by chance. */
const LEAST_BUFFER = 32;

function inColumns(what: string, at: number, side: string): string {
  return `It begins at ${what} ${at} of the band, whatever lies there: a buffer or a table ends there. Let it take band.${side}.`;
}

function isAllFrom(layer: AnyLayer, isIn: (x: number, y: number) => boolean): boolean {
  const { width, height } = layer;
  for (let k = 0; k < width * height; k++) {
    if (isUnsoundAt(layer, k) !== isIn(k % width, Math.floor(k / width))) return false;
  }
  return true;
}

/** False as well where it is refused, or fails in another way. */
async function isSoundAt(bench: Bench, sample: Sample, trial: Trial, view: View): Promise<boolean> {
  const onlyDensity = { ...trial, pixelsPerMm: sample.trial.pixelsPerMm };
  const isSame = JSON.stringify(onlyDensity) === JSON.stringify(sample.trial);
  try {
    const other = isSame ? atDensity(sample, trial.pixelsPerMm) : await bench.prepare(trial);
    return unsoundIn(bench.paint(other, view)) === undefined;
  } catch (error) {
    if (error instanceof Failed || error instanceof Refused) return false;
    throw error;
  }
}

function whereFrom({ plane, value, sample: { model } }: UnsoundPlace): string {
  if (Number.isFinite(value)) return clampRemedy(plane);
  if (holdsNumber(model, Number.isNaN)) return 'The model holds NaN already, so look in prepare.';
  return holdsNumber(model, isInfinite)
    ? 'The model holds an infinite number, so look in prepare.'
    : 'All numbers of the model are finite, so look in paint.';
}

function isInfinite(value: unknown): boolean {
  return value === Number.POSITIVE_INFINITY || value === Number.NEGATIVE_INFINITY;
}
