import { writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { writeAllBeside } from '../../picture/beside.ts';
import { pathFrom } from '../files/path-from.ts';
import { mapPictures, placedDefaults } from '../plugins/picture-paths.ts';
import { findPreset } from '../plugins/preset.ts';
import { findEffect, type Shelf, type ShelvedEffect } from '../plugins/shelf.ts';

export interface RecipeStart {
  /** Where it goes; nothing may be there. */
  readonly file: string;
  /** The effect of its first step. */
  readonly effect: string;
  readonly preset?: string;
  readonly shelf: Shelf;
}

/**
 * Writes a recipe of one step. It is right as it is, and its remarks say what can be changed.
 *
 * @throws Fault (usage) for an unknown effect or preset; Fault (output) where the file is there or cannot be
 *   written.
 */
export async function startRecipe({ file, effect, preset, shelf }: RecipeStart): Promise<void> {
  const found = findEffect(shelf, effect);
  if (preset !== undefined) findPreset(found.effect, found.presets, preset);
  const text = textFor(effect, preset, firstValue(found, dirname(file)));
  await writeAllBeside([{ path: file, fill: (beside) => writeFile(beside, text) }], {});
}

/** The first parameter at its default, as a file of that folder says it. */
function firstValue({ effect: { parameters }, place }: ShelvedEffect, folder: string): string {
  const [name] = Object.keys(parameters);
  if (name === undefined) return '';
  const usual = { [name]: parameters[name].default, ...placedDefaults(parameters, dirname(place)) };
  const named = mapPictures(parameters, usual, (path) => pathFrom(folder, path));
  return `"${name}": ${JSON.stringify(named[name])}`;
}

function textFor(effect: string, preset: string | undefined, value: string): string {
  const named = preset === undefined ? '' : `, "preset": "${preset}"`;
  return `{
  "summary": "What it looks like, in one line.",

  // The one light that all raised surfaces stand in, where it should differ from this.
  // "light": { "direction": 225, "elevation": 20, "gloss": 0 },

  // The steps, in the order in which they are laid. "tenter effects ${effect}" lists its presets and parameters.
  "steps": [
    {
      "effect": "${effect}"${named}
      // , "parameters": { ${value} }              values that differ from the preset
      // , "opacity": 0.6                        how much of it is laid, 0 to 1
      // , "blend": "multiply"                   how its colour is laid
      // , "mask": { "colours": ["#f3ead8"] }    only on these colours of the artwork; "spare": true for all others
    }
    // , { "effect": "paper-tooth" }             a second step over the first
  ]
}
`;
}
