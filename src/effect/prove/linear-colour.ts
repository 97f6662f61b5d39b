import { decodeSrgb } from '../../colour/srgb.ts';
import type { AnyLayer } from '../layer.ts';
import type { Parameter } from '../parameter.ts';
import type { Bench } from './bench.ts';
import { Failed } from './failed.ts';
import { showLayer, sideBySide } from './picture.ts';
import { CORNER } from './try-sound.ts';
import { unlessRefused } from './unless-refused.ts';
import { SKETCHED } from './vary.ts';

/** Greys that are asked for, 0..255. */
const GREYS = [64, 128, 192];
const WHITE = 255;
/** How far from light itself a tint may be that is taken for it. */
const SLACK = 0.02;
/** Looked at is what is tinted at least half as strongly as anything, where that is more than a breath. */
const LEAST_ALPHA = 0.05;
/** Darker tint is not made of the colour that was asked for. */
const LEAST_WHITE = 0.3;

/**
 * Looks whether a colour that is asked for comes out as numbers of light: a tint holds it encoded, as `#rrggbb` does,
 * and decoded it is printed far too dark.
 *
 * @throws Failed
 */
export async function tryLinearColours(bench: Bench): Promise<void> {
  for (const [name, parameter] of Object.entries<Parameter>(bench.effect.parameters)) {
    if (parameter.kind !== 'colour') continue;
    const white = tintOf(await paintIn(bench, name, WHITE));
    if (white === undefined || white < LEAST_WHITE) continue;
    const shares: number[] = [];
    for (const grey of GREYS) {
      const tint = tintOf(await paintIn(bench, name, grey));
      if (tint !== undefined) shares.push(tint / white);
    }
    const isLight = shares.every((share, k) => Math.abs(share - lightOf(GREYS[k])) < SLACK);
    if (shares.length === GREYS.length && isLight) throw await linear(bench, name, shares);
  }
}

function lightOf(grey: number): number {
  return decodeSrgb(grey / 255);
}

function hexOf(grey: number): string {
  return `#${grey.toString(16).padStart(2, '0').repeat(3)}`;
}

async function paintIn(bench: Bench, name: string, grey: number): Promise<AnyLayer | undefined> {
  const trial = { ...SKETCHED, parameters: { [name]: hexOf(grey) } };
  return unlessRefused(async () => bench.paint(await bench.shared(trial), CORNER));
}

/** The usual red of what is tinted most. */
function tintOf(layer: AnyLayer | undefined): number | undefined {
  const tint = layer?.tint;
  if (!tint) return undefined;
  let most = 0;
  for (let at = 3; at < tint.length; at += 4) most = Math.max(most, tint[at]);
  if (most < LEAST_ALPHA) return undefined;
  const reds: number[] = [];
  for (let at = 0; at < tint.length; at += 4) if (tint[at + 3] >= most / 2) reds.push(tint[at]);
  return reds.sort((a, b) => a - b)[reds.length >> 1];
}

async function linear(bench: Bench, name: string, shares: readonly number[]): Promise<Failed> {
  const [dark, middle] = shares.map((share) => share.toFixed(2));
  const asked = { ...SKETCHED, parameters: { [name]: hexOf(GREYS[1]) } };
  const layer = bench.paint(await bench.shared(asked), CORNER);
  return new Failed(asked, {
    expected: `the colours of ${name} in the tint as they are written, half for ${hexOf(GREYS[1])}`,
    received: `${middle} for it and ${dark} for ${hexOf(GREYS[0])}: the numbers of light, which print far too dark`,
    remedy:
      'A tint is encoded as #rrggbb is: divide each of the three by 255 (parseHex), and decode nothing.',
    picture: sideBySide([showLayer(layer)], `What ${name} ${hexOf(GREYS[1])} paints.`),
  });
}
