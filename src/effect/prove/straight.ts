import type { AnyEffect } from '../effect.ts';
import type { AnyLayer } from '../layer.ts';
import type { Parameter } from '../parameter.ts';
import type { Bench, Sample } from './bench.ts';
import { Failed } from './failed.ts';
import { showLayer, sideBySide } from './picture.ts';
import type { Trial } from './trial.ts';
import { CORNER } from './try-sound.ts';
import { unlessRefused } from './unless-refused.ts';
import { thinned, variants } from './vary.ts';

/** Between these a colour that was multiplied by its alpha is told from one that was not. */
const THIN = 0.05;
const THICK = 0.95;
/** Pixels, and how far their alphas must lie apart, for the two to be told apart for sure. */
const FEWEST = 40;
const LEAST_APART = 0.2;
/** Of a colour over its alpha, where it is the same everywhere. */
const SAME = 0.005;
/** Settings of the others beside which all colours are white. */
const MOST_TRIALS = 4;

/**
 * Tints are colours with alpha beside them, not multiplied by it. With every colour parameter white a tint that was
 * multiplied is as light as its alpha, at every alpha there is; so is, over its own colour, one without such parameters.
 *
 * @throws Failed where the tint was multiplied.
 */
export async function tryStraight(bench: Bench, base: Trial): Promise<void> {
  const { effect } = bench;
  if (!effect.planes.includes('tint')) return;
  const white = whiteValues(effect);
  const pixels: Pixel[] = [];
  let last: { sample: Sample; layer: AnyLayer } | undefined;
  for (const trial of thinned(variants(effect, base), MOST_TRIALS)) {
    const sample = await taken(bench, { ...trial, parameters: { ...trial.parameters, ...white } });
    if (!sample?.planes.includes('tint')) continue;
    const layer = bench.paint(sample, CORNER);
    const found = halfCovered(layer);
    pixels.push(...found);
    if (found.length > 0 && !last) last = { sample, layer };
  }
  const seen = multipliedBy(pixels);
  if (!seen || !last) return;
  const [thin, thick] = seen;
  throw new Failed(last.sample.trial, {
    expected: 'tint to hold its colour as it is, with the alpha beside it',
    received: `a colour that is multiplied by the alpha: ${spoken(thin)} and ${spoken(thick)}`,
    remedy:
      'Write the colour of the paint itself into red, green and blue, however little of it there is: whoever lays the tint multiplies.',
    picture: sideBySide([showLayer(last.layer)], 'What was painted: too dark wherever it is thin.'),
  });
}

type Pixel = readonly [red: number, green: number, blue: number, alpha: number];

function halfCovered({ tint }: AnyLayer): Pixel[] {
  const pixels: Pixel[] = [];
  for (let at = 0; tint && at < tint.length; at += 4) {
    const alpha = tint[at + 3];
    if (alpha > THIN && alpha < THICK) pixels.push([tint[at], tint[at + 1], tint[at + 2], alpha]);
  }
  return pixels;
}

/** The thinnest and the thickest pixel where all are one colour times their alpha; nothing where that is not sure. */
function multipliedBy(pixels: readonly Pixel[]): [thin: Pixel, thick: Pixel] | undefined {
  if (pixels.length < FEWEST) return undefined;
  const sorted = [...pixels].sort((a, b) => a[3] - b[3]);
  const [thin, thick] = [sorted[0], sorted[sorted.length - 1]];
  if (thick[3] - thin[3] < LEAST_APART) return undefined;
  const colour = ratiosOf(thick);
  // Of black nothing can be told.
  if (Math.max(...colour) < 0.1) return undefined;
  const isOne = sorted.every((pixel) =>
    ratiosOf(pixel).every((ratio, channel) => Math.abs(ratio - colour[channel]) <= SAME),
  );
  return isOne ? [thin, thick] : undefined;
}

function ratiosOf([red, green, blue, alpha]: Pixel): [number, number, number] {
  return [red / alpha, green / alpha, blue / alpha];
}

function spoken([red, green, blue, alpha]: Pixel): string {
  const [r, g, b, a] = [red, green, blue, alpha].map((value) => Number(value.toPrecision(3)));
  return `red, green and blue ${r}, ${g}, ${b} at alpha ${a}`;
}

function whiteValues({ parameters }: AnyEffect): Trial['parameters'] {
  const white = '#ffffff';
  const entries = Object.entries<Parameter>(parameters).flatMap(([name, parameter]) => {
    if (parameter.kind === 'colour') return [[name, white]];
    return parameter.kind === 'colours' ? [[name, parameter.default.map(() => white)]] : [];
  });
  return Object.fromEntries(entries);
}

async function taken(bench: Bench, trial: Trial): Promise<Sample | undefined> {
  return unlessRefused(() => bench.shared(trial));
}
