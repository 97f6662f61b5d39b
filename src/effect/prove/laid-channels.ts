import type { AnyLayer } from '../layer.ts';
import { type Channel, channelsOf } from './channels.ts';

/** The light that a wash of middling depth returns. */
const WASH = 0.25;

/** The channels as the eye averages them: `load` is an exponent, so what counts is the light of what is laid. */
export function laidChannelsOf(layer: AnyLayer): Channel[] {
  return channelsOf(layer).map((channel) =>
    channel.name === 'load' ? { ...channel, values: channel.values.map((load) => WASH ** load) } : channel,
  );
}

/** What the channel is where an effect does nothing. */
export function neutralOf({ name }: Channel): number {
  if (name === 'load') return WASH;
  return name === 'shade' ? 1 : 0;
}
