import type { Preset } from '../../host/plugins/preset.ts';
import type { MainColour } from '../../inspect/index.ts';
import type { EffectDescription } from '../../render/description.ts';
import type { Size } from '../../repeat/length.ts';
import type { Laying, Work } from './work.ts';

/** An artwork that the person opened. One that is dropped onto the page: `POST api/open?name=NAME` with its bytes. */
export interface OpenedTile {
  readonly id: string;
  /** How often the file was read anew because it had changed: what was drawn of an earlier one is out of date. */
  readonly revision: number;
  /** The name of its file; text, never markup. */
  readonly name: string;
  /** px */
  readonly width: number;
  readonly height: number;
  /** mm, where the file states its density or the command named it. */
  readonly size?: Size;
  /** As the command named it, or as it was last worked on. */
  readonly layout?: string;
  /** Empty until the picture was read whole for a look; then it comes as news. */
  readonly colours: readonly MainColour[];
  /** That the person should know: a profile that was converted, a doubtful size. */
  readonly notes: readonly string[];
}

/** An effect as the page shows it. */
export interface OfferedEffect {
  readonly effect: EffectDescription;
  readonly presets: readonly Preset[];
}

/** A recipe as the page offers it. */
export interface OfferedRecipe {
  readonly name: string;
  readonly summary: string;
  readonly laying: Laying;
}

/** What the page begins with. `POST api/begin`. */
export interface Begin {
  readonly version: string;
  readonly effects: readonly OfferedEffect[];
  readonly recipes: readonly OfferedRecipe[];
  readonly tiles: readonly OpenedTile[];
  /** Works that were begun or restored; the first is shown. */
  readonly works: readonly KeptWork[];
  /** Plugins that could not be loaded, and why. */
  readonly faults: readonly string[];
  /** The effect that `tenter watch --open` follows. */
  readonly watched?: string;
  /** The folder that things are saved to, as the person would say it. */
  readonly folder: string;
  /**
   * Pages of collections that stand in here, by the name of their file. `POST api/collection` with `{ name }`;
   * answered by `{ address }`, which opens once, within a minute.
   */
  readonly collections: readonly string[];
}

/** A work as the server keeps it. `PUT api/work/ID` with a `KeptWork`; 409 with the kept one as `kept` where `revision` is not the next. */
export interface KeptWork {
  readonly id: string;
  /** 1, 2, 3 ... */
  readonly revision: number;
  readonly work: Work;
  /** What was undone can be redone after a reload: the pages of the past and to come, oldest first. */
  readonly past: readonly Work[];
  readonly future: readonly Work[];
}
