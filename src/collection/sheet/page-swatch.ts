import { formatDensity, formatSize } from '../../repeat/length.ts';
import { gradeOf } from '../disk/unclosed.ts';
import type { PageSwatch } from '../page/data.ts';
import { tileFacts } from './caption.ts';
import { clothOf } from './embed.ts';
import { densityOf } from './scale.ts';
import { settingsOf } from './settings.ts';
import type { Made, Swatch } from './swatch.ts';

/**
 * A swatch as the page knows it.
 *
 * @param original Number of its artwork, where the page has that.
 * @param reason   Why it is empty; none where its picture is shown.
 */
export function pageSwatch(swatch: Swatch, original?: number, reason?: string): PageSwatch {
  const { name, address, labels, inputs, made } = swatch;
  return {
    name,
    address,
    labels,
    cloth: made && reason === undefined ? clothOf(made) : undefined,
    original,
    reason,
    facts: tileFacts([swatch]),
    render: made && renderWords(made),
    settings: settingsOf(inputs),
    seams: made && { grade: gradeOf(made.seams), summary: made.seams.summary },
    notes: made?.notes ?? [],
  };
}

function renderWords(made: Made): string {
  const { widthPx, heightPx, widthMm, heightMm } = made.picture;
  const size = formatSize({ width: widthMm, height: heightMm });
  return `${size}, ${widthPx} x ${heightPx} px at ${formatDensity(densityOf(made))}`;
}
