import { grouped } from './by-tile.ts';
import { settingsOf } from './settings.ts';
import type { Swatch } from './swatch.ts';

/** A recipe of a sheet, with the settings that all its swatches there have alike. */
export interface LegendEntry {
  readonly recipe: string;
  readonly settings: string;
}

/** The recipes of a sheet, so that no caption has to tell what is common. */
export class Legend {
  readonly entries: readonly LegendEntry[];
  readonly #axes: readonly string[];
  readonly #common = new Map<string, ReadonlySet<string>>();

  /** @param axes Those that captions name. */
  constructor(swatches: readonly Swatch[], axes: readonly string[]) {
    this.#axes = axes;
    const recipes = grouped(
      swatches.filter(({ inputs }) => inputs),
      recipeOf,
    );
    for (const [recipe, group] of recipes) this.#common.set(recipe, commonOf(group.map(wordsOf)));
    this.entries = [...recipes].map(([recipe, [first]]) => ({
      recipe,
      settings: sentence(first, (word) => this.#common.get(recipe)!.has(word)),
    }));
  }

  /** The settings of a swatch that neither an axis names nor the legend. */
  ownOf(swatch: Swatch): string {
    const common = this.#common.get(recipeOf(swatch)) ?? new Set();
    return sentence(swatch, (word, label) => !common.has(word) && !this.#isNamed(label));
  }

  #isNamed(label: string): boolean {
    return this.#axes.some((axis) => axis === label || axis.endsWith(`.${label}`));
  }
}

function recipeOf({ labels, name }: Swatch): string {
  return labels.recipe ?? name;
}

/** Every setting with the number of its step. */
function wordsOf({ inputs }: Swatch): Set<string> {
  return new Set(
    settingsOf(inputs).flatMap(({ rows }, step) => rows.map(([label, value]) => wordFor(step, label, value))),
  );
}

function commonOf([first, ...others]: readonly ReadonlySet<string>[]): Set<string> {
  return new Set([...first].filter((word) => others.every((words) => words.has(word))));
}

function wordFor(step: number, label: string, value: string): string {
  return `${step} ${label} ${value}`;
}

function sentence({ inputs }: Swatch, isMeant: (word: string, label: string) => boolean): string {
  return settingsOf(inputs)
    .map(({ rows }, step) =>
      rows
        .filter(([label, value]) => isMeant(wordFor(step, label, value), label))
        .map(([label, value]) => `${label} ${value}`)
        .join(', '),
    )
    .filter(Boolean)
    .join('; then ');
}
