import { type Command, Option } from 'commander';
import { Fault } from '../fault.ts';
import type { InksInForce } from '../host/ink/inks-in-force.ts';
import { inColourway, openScreens, type Screens } from '../host/ink/screens.ts';
import type { ScreensWish } from '../host/ink/screens-wish.ts';
import { collect, numberBetween } from './options.ts';
import { parseAngle, parseRuling } from './plate-options.ts';

/** Lines per cm where none are asked. */
const RULING = 20;

/** Options of a result of counted inks. */
export interface ScreenFlags {
  readonly screens?: number;
  readonly card?: string;
  readonly texture?: ScreensWish['way'];
  readonly textureInk: readonly string[];
  readonly ruling?: number;
  readonly angle?: number;
  readonly dots?: 'scattered' | 'lines' | 'round';
  readonly leastDot?: number;
  readonly gain?: ScreensWish['press'];
  readonly washes?: ScreensWish['washes'];
}

/** Adds them, worded once. */
export function addScreenFlags(command: Command): Command {
  return command
    .option(
      '--screens <count>',
      'print with so many inks of the shade card and no more; the ground is not counted',
      (text) => wholeBetween(text, 1, 24, '--screens'),
    )
    .addOption(
      new Option(
        '--texture <way>',
        'with --screens: own prints the texture with an ink of the card; bare opens the inks to the ground; there makes it of the inks that are there; default there',
      ).choices(['own', 'bare', 'there']),
    )
    .option(
      '--texture-ink <name>',
      'the ink of --texture own; may be given twice, for a shadow and a gleam; default the nearest',
      collect,
      [],
    )
    .addOption(
      new Option('--dots <kind>', 'with --screens: scattered (default), lines or round').choices([
        'scattered',
        'lines',
        'round',
      ]),
    )
    .option('--ruling <count>', 'lines, or rows of round dots, per cm; default 20', parseRuling)
    .option(
      '--angle <degrees>',
      'how they run, from the horizontal, turning anticlockwise; default 45',
      parseAngle,
    )
    .option('--least-dot <mm>', 'the least dot, line and gap that the mill prints; default 0.2', (text) =>
      numberBetween(text.replace(/\s*mm$/, ''), 0.02, 5, '--least-dot'),
    )
    .option(
      '--gain <curve>',
      'what the press makes of tones: asked:printed percents such as 50:65,80:90, or n=1.7 (Yule and Nielsen)',
      parseGain,
    )
    .addOption(
      new Option(
        '--washes <how>',
        'soft edges of the artwork: hard (default) cuts them where two inks are equal, dots prints them in dots',
      ).choices(['hard', 'dots']),
    );
}

/**
 * The screens that the flags or the recipe ask for; flags go first.
 *
 * @param inks What is in force: without a card of its own, the screens print with the card that the colourway is of.
 */
export async function screensOf(
  flags: ScreenFlags,
  recipe?: ScreensWish,
  inks?: InksInForce,
): Promise<Screens | undefined> {
  const { screens: count = recipe?.count, card = recipe?.card ?? inks?.cardPath } = flags;
  if (count === undefined) {
    refuseAlone(flags);
    return undefined;
  }
  if (card === undefined) throw cardMissing();
  const { texture: way = recipe?.way, textureInk, washes = recipe?.washes, leastDot, gain } = flags;
  const press = { ...recipe?.press, ...gain, ...(leastDot === undefined ? {} : { leastDot }) };
  // Another way by a flag is not held to inks that the recipe named for its own.
  const named = textureInk.length > 0 ? [...textureInk] : way === recipe?.way ? recipe?.inks : undefined;
  const dots = dotsOf(flags, recipe);
  return inColourway(await openScreens({ card, count, way, inks: named, dots, washes, press }), inks);
}

function dotsOf({ dots, ruling, angle }: ScreenFlags, recipe?: ScreensWish): ScreensWish['dots'] {
  if ((dots === undefined || dots === 'scattered') && (ruling !== undefined || angle !== undefined))
    throw new Fault({
      kind: 'usage',
      expected: '--dots lines or --dots round',
      subject: ruling === undefined ? '--angle' : '--ruling',
      received: 'it for scattered dots, which have neither',
      remedy: 'Add --dots lines or --dots round.',
    });
  if (dots === undefined) return recipe?.dots;
  return dots === 'scattered' ? dots : { shape: dots, ruling: ruling ?? RULING, angle };
}

function parseGain(text: string): ScreensWish['press'] {
  const n = /^n\s*=\s*(\S+)$/i.exec(text.trim());
  if (n) return { gain: { n: numberBetween(n[1], 1, 10, '--gain n') } };
  const table = text.split(',').map((row): [number, number] => {
    const [asked = '', printed = ''] = row.split(':').map((part) => part.replace('%', ''));
    return [numberBetween(asked, 0, 100, '--gain'), numberBetween(printed, 0, 100, '--gain')];
  });
  return { gain: { table } };
}

function wholeBetween(text: string, low: number, high: number, subject: string): number {
  const value = numberBetween(text, low, high, subject);
  if (Number.isInteger(value)) return value;
  throw new Fault({ kind: 'usage', expected: 'a whole number', subject, received: `"${text}"` });
}

const ONLY_WITH_SCREENS = ['texture', 'dots', 'ruling', 'angle', 'leastDot', 'gain', 'washes'] as const;

function refuseAlone(flags: ScreenFlags): void {
  const name = ONLY_WITH_SCREENS.find((flag) => flags[flag] !== undefined);
  if (name === undefined && flags.textureInk.length === 0) return;
  throw new Fault({
    kind: 'usage',
    expected: '--screens and --card with it',
    subject: `--${(name ?? 'textureInk').replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`,
    received: 'it alone',
    remedy: 'Add for example --screens 6 --card sprig.card.json.',
  });
}

function cardMissing(): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'the shade card that is printed with',
    subject: '--screens',
    received: 'no --card',
    remedy: 'Add --card CARD; "tenter inks TILE" writes one.',
  });
}
