import type { Parameter, ParameterValue } from '../parameter.ts';
import type { Picture, Pictures } from './alive-pictures.ts';
import { CHANNELS } from './colour-claims.ts';
import { Failed } from './failed.ts';

/** Each lighter than the one before in every channel; some channels with letters in their digits, some without. */
const LADDER = ['#204060', '#4080a0', '#4a8aac', '#aabbcc', '#c0ddee', '#ffffff'] as const;
/** Of digits alone, and what has been painted already. */
const QUICK_LADDER = [LADDER[0], '#ffffff'] as const;
/** A fall of a channel, as a share of full light, that is large enough to be sure of. */
const LEAST = 0.015;
/** Mean alpha below which no colour is seen. */
const LEAST_ALPHA = 0.01;

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
  for (const [step, hex] of ladder.slice(1).entries()) {
    const before = tintOf(await pictures.of(surrounding, name, allOf(ladder[step])));
    const after = tintOf(await pictures.of(surrounding, name, allOf(hex)));
    if (!before || !after) continue;
    const fallen = before.findIndex((light, channel) => light - after[channel] > LEAST);
    if (fallen < 0) continue;
    const channel = CHANNELS[fallen];
    throw new Failed(
      { ...surrounding, parameters: { ...surrounding.parameters, [name]: allOf(hex) } },
      {
        expected: `a lighter ${name} to make no channel of tint darker: ${hex} has more ${channel} than ${ladder[step]}`,
        received: `${spoken(after[fallen])} of ${channel} in the mean, after ${spoken(before[fallen])}`,
        remedy: `Read the digits of "${name}" as hexadecimal ones, which letters belong to: parseHex does, and parseInt where it is told base 16.`,
      },
    );
  }
}

/** The colour of the tint in the mean, weighed by its alpha; nothing where there is hardly any. */
function tintOf(picture: Picture): readonly number[] | undefined {
  const tint = picture === 'refused' ? undefined : picture[0].tint;
  if (!tint) return undefined;
  const sums = [0, 0, 0];
  let cover = 0;
  for (let at = 0; at < tint.length; at += 4) {
    cover += tint[at + 3];
    for (const channel of CHANNELS.keys()) sums[channel] += tint[at + channel] * tint[at + 3];
  }
  return (4 * cover) / tint.length < LEAST_ALPHA ? undefined : sums.map((sum) => sum / cover);
}

function spoken(light: number): string {
  return String(Number(light.toPrecision(3)));
}
