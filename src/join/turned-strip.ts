import type { Strip } from './canvas.ts';

/** A strip turned half round. */
export function turnedStrip({ across, along, samples }: Strip): Strip {
  const turned = samples.slice();
  for (let from = 0, to = samples.length - 4; from < samples.length; from += 4, to -= 4)
    for (let channel = 0; channel < 4; channel++) turned[to + channel] = samples[from + channel];
  return { across, along, samples: turned };
}
