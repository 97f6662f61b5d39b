import { parseLayout } from '../repeat/layout.ts';
import { formatDensity, trimNumber } from '../repeat/length.ts';
import type { ParcelFacts } from './facts.ts';

/** `half drop: each column 160 mm lower than the one before` */
export function layoutWords({ repeat }: Pick<ParcelFacts, 'repeat'>): string {
  const { kind, numerator, denominator } = parseLayout(repeat.layout);
  const share = numerator === 1 && denominator === 2 ? 'half' : `${numerator}/${denominator}`;
  const mm = (value: number) => `${trimNumber(value, 2)} mm`;
  switch (kind) {
    case 'drop':
      return `${share} drop: each column stands ${mm((repeat.heightMm * numerator) / denominator)} lower than the one to its left`;
    case 'brick':
      return `${share} brick: each row stands ${mm((repeat.widthMm * numerator) / denominator)} further right than the one above`;
    case 'mirror-x':
      return 'mirrored left to right: every second column is the tile in a mirror';
    case 'mirror-y':
      return 'mirrored top to bottom: every second row is the tile in a mirror';
    case 'mirror-xy':
      return 'mirrored both ways: every second column and every second row is the tile in a mirror';
    case 'turn':
      return 'half turn: every second column is the tile upside down';
    default:
      return 'straight: tile beside tile, tile under tile';
  }
}

export function pixelWords({ print }: Pick<ParcelFacts, 'print'>): string {
  const { widthPx, heightPx, dpi, bits } = print;
  const across = formatDensity(dpi.x / 25.4);
  const density =
    Math.abs(dpi.x / dpi.y - 1) < 1e-5 ? across : `${across} across, ${formatDensity(dpi.y / 25.4)} down`;
  return `${widthPx} x ${heightPx} at ${density}, ${bits} bit a channel`;
}

export function profileWords({ profile }: ParcelFacts['print']): string {
  const intent = profile.intent ? `, converted in the ${profile.intent} intent` : '';
  return `${profile.space}, profile "${profile.name}" embedded${intent}`;
}
