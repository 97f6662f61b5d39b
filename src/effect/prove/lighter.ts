import type { Parameter, ParameterValue } from '../parameter.ts';
import type { Picture, Pictures } from './alive-pictures.ts';
import { CHANNELS } from './colour-claims.ts';
import { Failed } from './failed.ts';

/** All lighter than the first in every channel; some channels with letters in their digits, some without. */
const LADDER = ['#204060', '#8aaacc', '#aabbcc', '#c0ddee'] as const;
/** Of digits alone, and what has been painted already. */
const QUICK_LADDER = [LADDER[0], '#ffffff'] as const;
/** A fall of a channel, as a share of full light, that is large enough to be sure of. */
const LEAST = 0.015;
/** An alpha, and a change of it, below which nothing is seen. */
const LEAST_ALPHA = 0.01;
/** Where the first colour leaves more light in the mean, most of the tint is of other colours, and proves nothing. */
const MOST_DARK = 0.4;
/** What may grow lighter, as a share of what grows darker. */
const MOST_RISEN = 0.05;

/**
 * A colour that grows lighter in every channel must not make the tint darker in any: that comes of digits that were
 * not read as hexadecimal ones.
 */
export async function tryLighter(
  pictures: Pictures,
  name: string,
  parameter: Parameter,
  isQuick = false,
): Promise<void> {
  const surrounding = pictures.showing.get(name);
  const given = parameter.default;
  if (!surrounding || (parameter.kind !== 'colour' && parameter.kind !== 'colours')) return;
  const allOf = (hex: string): ParameterValue => (typeof given === 'object' ? given.map(() => hex) : hex);
  const ladder = isQuick ? QUICK_LADDER : LADDER;
  for (const hex of ladder.slice(1)) {
    const before = tintOf(await pictures.of(surrounding, name, allOf(ladder[0])));
    const after = tintOf(await pictures.of(surrounding, name, allOf(hex)));
    if (!before || !after) continue;
    const fallen = CHANNELS.findIndex((_, channel) => isFallen(before, after, channel));
    if (fallen < 0) continue;
    const channel = CHANNELS[fallen];
    throw new Failed(
      { ...surrounding, parameters: { ...surrounding.parameters, [name]: allOf(hex) } },
      {
        expected: `a lighter ${name} to make no channel of tint darker: ${hex} has more ${channel} than ${ladder[0]}`,
        received: `${spoken(after, fallen)} of ${channel} in the mean, after ${spoken(before, fallen)}`,
        remedy: `Read the digits of "${name}" as hexadecimal ones, which letters belong to: parseHex does, and parseInt where it is told base 16.`,
      },
    );
  }
}

function tintOf(picture: Picture): Float32Array | undefined {
  return picture === 'refused' ? undefined : picture[0].tint;
}

/**
 * Whether a channel grew darker wherever it changed and alpha did not: what grows lighter here and darker there has
 * another mixture, or other pieces of each colour.
 */
function isFallen(before: Float32Array, after: Float32Array, channel: number): boolean {
  let [risen, fallen, cover, light] = [0, 0, 0, 0];
  for (let at = 0; at < before.length; at += 4) {
    const alpha = before[at + 3];
    if (alpha < LEAST_ALPHA) continue;
    if (Math.abs(after[at + 3] - alpha) > LEAST_ALPHA) return false;
    const change = alpha * (after[at + channel] - before[at + channel]);
    cover += alpha;
    light += alpha * before[at + channel];
    if (change > 0) risen += change;
    else fallen -= change;
  }
  if (light > MOST_DARK * cover) return false;
  return fallen > LEAST * cover && risen < MOST_RISEN * fallen;
}

/** The channel in the mean, weighed by alpha. */
function spoken(tint: Float32Array, channel: number): string {
  let [sum, cover] = [0, 0];
  for (let at = 0; at < tint.length; at += 4) {
    sum += tint[at + channel] * tint[at + 3];
    cover += tint[at + 3];
  }
  return String(Number((sum / cover).toPrecision(3)));
}
