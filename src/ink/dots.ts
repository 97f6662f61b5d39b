import type { DotField, OpenDots } from './dot-field.ts';
import { openRuledDots } from './ruled-rows.ts';
import { openScatteredDots } from './scattered-rows.ts';

export type { DotField, OpenDots, RuledDots, Ruling, ScatteredDots } from './dot-field.ts';

/** Builds the tables that thresholds are read by (some ms for a large period). */
export function openDots(field: DotField): OpenDots {
  return field.kind === 'scattered' ? openScatteredDots(field) : openRuledDots(field);
}
