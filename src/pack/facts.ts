import type { Grade } from '../inspect/index.ts';

/** A file of a parcel, as a stranger is told of it. */
export interface FileFacts {
  /** Path inside the parcel, with forward slashes. */
  readonly name: string;
  /** What it is, in words. */
  readonly what: string;
  readonly bytes: number;
  readonly sha256: string;
}

/** A step of the recipe. */
export interface StepFacts {
  readonly effect: string;
  readonly version: string;
  readonly preset?: string;
  readonly seed: string;
  readonly parameters: Readonly<Record<string, unknown>>;
  readonly blend: string;
  readonly opacity: number;
  readonly paper: string;
  readonly mask?: unknown;
  /** What it does, in sentences. */
  readonly words: readonly string[];
}

/** An ink of the shade card, and how much of the repeat it covers. */
export interface InkFacts {
  readonly name: string;
  readonly kind: 'ground' | 'ink';
  /** `#rrggbb` */
  readonly colour: string;
  readonly covers: boolean;
  readonly note: string;
  /** Place in the order of printing, from 1; none for the ground, which is not printed. */
  readonly order?: number;
  /** Of the repeat, 0..100. */
  readonly percent: number;
  /** Of one repeat. */
  readonly cm2: number;
}

/** A set of colours for the same screens. */
export interface ColourwayFacts {
  readonly name: string;
  /** `#rrggbb` by the name of the ink. */
  readonly colours: Readonly<Record<string, string>>;
}

/** All that a parcel says of its design. */
export interface ParcelFacts {
  readonly name: string;
  /** Of the very inputs: two parcels that share it hold the same. */
  readonly address: string;
  readonly tenter: string;
  readonly print: {
    readonly file: string;
    readonly widthPx: number;
    readonly heightPx: number;
    readonly bits: number;
    readonly dpi: { readonly x: number; readonly y: number };
    readonly profile: { readonly name: string; readonly space: string; readonly intent?: string };
    readonly opaque: boolean;
  };
  readonly repeat: {
    readonly layout: string;
    readonly widthMm: number;
    readonly heightMm: number;
    /** From one copy to the next across and down, mm. */
    readonly across: { readonly x: number; readonly y: number };
    readonly down: { readonly x: number; readonly y: number };
  };
  readonly artwork: { readonly file: string; readonly sha256: string };
  readonly follow: string;
  readonly light?: unknown;
  readonly steps: readonly StepFacts[];
  readonly seams: { readonly closes: boolean; readonly grade?: Grade; readonly summary: string };
  readonly card?: {
    readonly name: string;
    readonly screens: number;
    readonly inks: readonly InkFacts[];
  };
  readonly colourways: readonly ColourwayFacts[];
  readonly layers?: {
    readonly file: string;
    readonly order: readonly { readonly name: string; readonly mode: string }[];
    /** In steps of 255, against the print at 8 bit in sRGB. */
    readonly off: { readonly most: number; readonly withoutTouchUp: number; readonly touchedUp: number };
    readonly missing: readonly string[];
  };
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
  /** All but parcel.json itself. */
  readonly files: readonly FileFacts[];
}
