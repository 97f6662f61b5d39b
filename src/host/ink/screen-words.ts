import { trimNumber } from '../../repeat/length.ts';
import type { ScreenedFacts } from './screen-picture.ts';

/** The texture changed less of the picture than this: nobody will see it. */
const LITTLE = 0.001;

const WAYS = {
  own: 'the texture printed with',
  bare: 'the texture opens the inks to the ground',
  there: 'the texture made by the inks that are there',
};

/** What a result of counted inks came to, in lines. */
export function screenRows({
  card,
  way,
  screens,
  textureInks,
  colours,
  dots,
  difference,
}: ScreenedFacts): string[] {
  const texture = way === 'own' ? `${WAYS.own} ${textureInks?.join(' and ')}` : WAYS[way];
  const { mean, p95, overMm } = difference;
  return [
    `${screens.length} ${screens.length === 1 ? 'screen' : 'screens'} by the shade card "${card}": ${screens.join(', ')}`,
    `${texture}, in ${dots}`,
    ...colours.map(
      ({ colour, inks, share }) =>
        `${colour} ${inks.join(' + ') || 'bare ground'}, ${trimNumber(100 * share, 1)} %`,
    ),
    `off the continuous tone by CIEDE2000 ${trimNumber(mean, 1)} on average, ${trimNumber(p95, 1)} at 95 % (seen from 2 m, over ${overMm} mm)`,
  ];
}

/** What was done besides, for a sidecar. */
export function screenNotes(facts?: ScreenedFacts): string[] {
  return facts
    ? [`made of ${facts.colours.length} colours of the shade card "${facts.card}"; ${facts.dots}`]
    : [];
}

/** What the user should look at. */
export function screenWarnings(facts?: ScreenedFacts): string[] {
  if (!facts || facts.textured >= LITTLE) return [];
  const hint = {
    own: 'its ink is neither darker nor lighter in the way the texture is; name another with --texture-ink',
    bare: 'it only darkens, or lies on bare ground; opening an ink to the ground cannot show that: take the way "own" or "there"',
    there: 'it changes less than one dot of any ink would',
  }[facts.way];
  return [
    `the texture hardly shows in these inks (${trimNumber(100 * facts.textured, 2)} % of the picture): ${hint}`,
  ];
}
