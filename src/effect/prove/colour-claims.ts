import type { ColourParameter, ColoursParameter, ParameterValue } from '../parameter.ts';
import type { Claim } from './claim.ts';

export const CHANNELS = ['red', 'green', 'blue'] as const;
/** Of a channel's 256 steps the first that is nearer to full light than to none. */
const MIDDLE = 128;

/** That each of red, green and blue alone, from what it is by default to its farther end, changes something. */
export function channelClaims(name: string, parameter: ColourParameter | ColoursParameter): Claim[] {
  const given = parameter.default;
  return CHANNELS.map((word, channel) => {
    const far = (hex: string) => withFarChannel(hex, channel);
    const changed: ParameterValue = typeof given === 'string' ? far(given) : given.map(far);
    return {
      what: `${word} of ${name}`,
      values: [given, changed],
      instead: `read ${word} from digits ${2 * channel + 1} and ${2 * channel + 2} of the colour (parseHex does)`,
      channel,
    };
  });
}

/** The colour on the other side of the middle in every channel, as far as it goes. */
export function oppositeOf(hex: string): string {
  return [0, 1, 2].reduce(withFarChannel, hex);
}

function withFarChannel(hex: string, channel: number): string {
  const at = 1 + 2 * channel;
  const value = Number.parseInt(hex.slice(at, at + 2), 16);
  return hex.slice(0, at) + (value < MIDDLE ? 'ff' : '00') + hex.slice(at + 2);
}
