import { type Command, Option } from 'commander';
import { BLEND_MODES, type BlendMode } from '../colour/blend.ts';
import { parseHex } from '../colour/hex.ts';
import { LIGHT_RANGES } from '../composite/light.ts';
import { Fault } from '../fault.ts';
import type { ColourwayWish } from '../host/ink/inks-in-force.ts';
import { isInkName } from '../host/ink/named-colours.ts';
import { type Limits, RENDER_LIMITS } from '../host/threads/limits.ts';
import { suggestName } from '../nearest.ts';
import type { Follow } from '../render/follow.ts';
import type { PartialLight } from '../render/light-words.ts';
import { type Layout, parseLayout } from '../repeat/layout.ts';
import { parseDensity, parseSize, type Size } from '../repeat/length.ts';

/** Options that lay and make share. */
export interface RenderFlags {
  readonly layout: Layout;
  readonly size?: Size;
  readonly dpi?: number;
  readonly fit?: boolean;
  readonly preset?: string;
  readonly set: readonly Assignment[];
  readonly seed: string;
  readonly out?: string;
  readonly overwrite?: boolean;
  readonly follow?: Follow;
  readonly light?: PartialLight;
  readonly sketch?: boolean;
  readonly paper?: string;
  readonly card?: string;
  readonly ways?: string;
  readonly colourway?: string;
  readonly workers?: number;
  readonly plugins: readonly string[];
  readonly trust?: boolean;
  readonly timeLimit?: number;
  readonly memoryLimit?: number;
  readonly json?: boolean;
}

/** Options of watch. */
export interface WatchFlags
  extends Omit<
    RenderFlags,
    'fit' | 'follow' | 'sketch' | 'plugins' | 'json' | 'card' | 'ways' | 'colourway'
  > {
  readonly effect?: string;
  readonly tile?: string;
  readonly ground?: string;
  readonly finished?: boolean;
  readonly open?: boolean;
  readonly port?: number;
  readonly browser: boolean;
}

/** One `--set name=value`. */
export interface Assignment {
  readonly name: string;
  readonly text: string;
}

/** Adds the shared options, worded once. */
export function addRenderFlags(command: Command, preset = true): Command {
  command
    .addOption(layoutOption())
    .option('--size <size>', 'size of one tile, e.g. 640x640mm, 25.2x25.2in or 64cm', parseSize)
    .option('--dpi <density>', 'pixel density, e.g. 300, 300dpi or 118px/cm', parseDensity)
    .option('--fit', 'where the repeat misses whole pixels, take the nearest that fits and say so');
  if (preset)
    command.option('--preset <name>', 'start from a preset of the effect ("tenter effects NAME" lists them)');
  return command
    .option(
      '--set <name=value>',
      'set a parameter of the effect; may be given many times',
      collectAssignment,
      [],
    )
    .option('--seed <text>', 'another seed gives another cloth of the same kind', '1')
    .option('--out <file>', 'where to write; .png, .tif or .tiff, or .jpg for a proof')
    .option('--overwrite', 'replace the file if it is there')
    .addOption(
      new Option(
        '--follow <what>',
        'for reflected layouts: cloth unfolds the tile and draws the texture once over all of it; artwork reflects it with the tile',
      ).choices(['cloth', 'artwork']),
    )
    .addOption(lightOption())
    .option(
      '--paper <colour>',
      'the bare paper or cloth under the paint, #rrggbb or an ink, for effects that thin the paint; default white',
      readColourOrInk,
    )
    .option(
      '--card <file>',
      'the shade card ("tenter inks" writes one), whose inks may be named in place of colours',
    )
    .option('--ways <file>', 'the file that the colourway stands in; it names its card too')
    .option('--colourway <name>', 'the colourway: the artwork is recoloured to it, and inks named go along')
    .option(
      '--sketch',
      'a first look with the same composition and size in mm: drawn at 100 dpi at most, simulated on a coarser grid',
    )
    .option('--workers <count>', 'threads to use; the bytes are the same for any number', wholeFrom1)
    .addOption(pluginsOption())
    .addOption(trustOption())
    .addOption(timeLimitOption())
    .addOption(memoryLimitOption())
    .addOption(jsonOption());
}

/** Adds the options of watch; they mean what they mean elsewhere. */
export function addWatchFlags(command: Command, timeLimit: number): Command {
  return command
    .option('--effect <name>', 'which effect, where the folder has several')
    .option('--tile <picture>', 'draw it over this artwork; otherwise over a ground of one colour')
    .addOption(layoutOption())
    .option('--size <size>', 'size of one tile; default 100x100mm where there is no artwork', parseSize)
    .option('--dpi <density>', 'pixel density; default 127 where there is no artwork', parseDensity)
    .option('--preset <name>', 'start from a preset of the effect')
    .option('--set <name=value>', 'set a parameter; may be given many times', collectAssignment, [])
    .option('--seed <text>', 'another seed gives another cloth of the same kind', '1')
    .option('--ground <colour>', 'the colour under the texture, #rrggbb', readColour)
    .addOption(lightOption())
    .option('--paper <colour>', 'the bare paper or cloth under the paint, #rrggbb', readColour)
    .option('--out <file>', 'where to draw; default preview.png in the folder')
    .option('--overwrite', 'draw over that file if it is there')
    .option('--finished', 'draw as for print instead of as a sketch')
    .option('--open', 'show it on the live page instead, where its values can be steered')
    .addOption(portOption())
    .addOption(browserOption())
    .option('--workers <count>', 'threads to use', wholeFrom1)
    .addOption(trustOption())
    .addOption(timeLimitOption(timeLimit))
    .addOption(memoryLimitOption());
}

function lightOption(): Option {
  return new Option(
    '--light <name=value>',
    'the light on raised surfaces: direction=225 (deg, where it comes from: 0 the right, 90 below), elevation=20 (deg over the cloth) or gloss=0.3 (0 to 1); may be given many times',
  ).argParser(collectLight);
}

export function layoutOption(): Option {
  return new Option(
    '--layout <layout>',
    'how the tile repeats: straight, half-drop (or drop:1/2, any fraction), brick (brick:1/3), mirror-x, mirror-y, mirror-xy or turn',
  )
    .argParser(parseLayout)
    .default(parseLayout('straight'), 'straight');
}

export function pluginsOption(): Option {
  return new Option(
    '--plugins <place>',
    'also load effects from this file, folder or installed package; may be given many times',
  )
    .argParser(collect)
    .default([], 'none');
}

export function portOption(): Option {
  return new Option('--port <number>', 'the port of the page; any free one where absent').argParser((text) =>
    numberBetween(text, 1, 65_535, '--port'),
  );
}

export function browserOption(): Option {
  return new Option('--no-browser', 'print the address of the page and open no browser');
}

export function trustOption(): Option {
  return new Option(
    '--trust',
    'run these plugins without asking, for scripts: a plugin is a program with all your rights',
  );
}

export function timeLimitOption(seconds = RENDER_LIMITS.seconds): Option {
  return new Option(
    '--time-limit <seconds>',
    `stop an effect that shows no progress for this long; default ${seconds}`,
  ).argParser((text) => numberBetween(text, 0.1, 86_400, '--time-limit'));
}

export function memoryLimitOption(): Option {
  return new Option(
    '--memory-limit <megabytes>',
    `stop an effect that takes more than this; default ${RENDER_LIMITS.megabytes}`,
  ).argParser((text) => numberBetween(text, 16, 1 << 20, '--memory-limit'));
}

/** The limits as the host takes them; what is not given stays as it is. */
export function limitsOf({
  timeLimit,
  memoryLimit,
}: Pick<RenderFlags, 'timeLimit' | 'memoryLimit'>): Partial<Limits> {
  return {
    ...(timeLimit === undefined ? {} : { seconds: timeLimit }),
    ...(memoryLimit === undefined ? {} : { megabytes: memoryLimit }),
  };
}

export function jsonOption(): Option {
  return new Option('--json', 'print one JSON object for scripts instead of words');
}

export function blendOption(): Option {
  return new Option('--blend <mode>', `how the tint is laid: ${BLEND_MODES.join(', ')}`).argParser(
    parseBlend,
  );
}

/** Reads 0.6 or 60%. @throws Fault (usage) for anything but a share from 0 to 1. */
export function parseOpacity(text: string): number {
  const percent = /^(\d+(?:\.\d+)?)\s*%$/.exec(text.trim());
  return numberBetween(percent ? String(Number(percent[1]) / 100) : text, 0, 1, '--opacity');
}

/** @throws Fault (usage) for anything but a CIEDE2000 from 0 to 100. */
export function parseDifference(text: string): number {
  return numberBetween(text, 0, 100, 'a colour difference');
}

export function collectColour(text: string, before: readonly string[]): string[] {
  return [...before, readColourOrInk(text)];
}

/** The card and the colourway as flags give them. */
export function inkWish({ card, ways, colourway }: RenderFlags): ColourwayWish {
  return { card, ways, name: colourway };
}

/** Leaves the name of an ink to whoever knows the card. @throws Fault (usage) for what is no colour either. */
export function readColourOrInk(text: string): string {
  return isInkName(text) ? text.trim() : readColour(text);
}

/** @throws Fault (usage) for anything but `#rrggbb`. */
export function readColour(text: string): string {
  parseHex(text);
  return text;
}

function parseBlend(text: string): BlendMode {
  const mode = BLEND_MODES.find((candidate) => candidate === text);
  if (mode) return mode;
  throw new Fault({
    kind: 'usage',
    expected: `one of ${BLEND_MODES.join(', ')}`,
    subject: '--blend',
    received: `"${text}"`,
  });
}

/** Of options that may be given many times. */
export function collect(text: string, before: readonly string[]): string[] {
  return [...before, text];
}

/** @throws Fault (usage) for anything but a number of the light in its range. */
export function collectLight(text: string, before: PartialLight = {}): PartialLight {
  const sign = text.indexOf('=');
  const name = text.slice(0, Math.max(0, sign)).trim();
  if (Object.hasOwn(LIGHT_RANGES, name)) {
    const [low, high] = LIGHT_RANGES[name as keyof PartialLight];
    const bare = text.slice(sign + 1).replace(/deg$/, '');
    return { ...before, [name]: numberBetween(bare, low, high, `--light ${name}`) };
  }
  throw new Fault({
    kind: 'usage',
    expected: `${Object.keys(LIGHT_RANGES).join(', ')}, as name=value`,
    subject: '--light',
    received: `"${text}"`,
    remedy:
      sign > 0 ? suggestName(name, Object.keys(LIGHT_RANGES)) : 'Write for example --light elevation=30.',
  });
}

function collectAssignment(text: string, before: readonly Assignment[]): Assignment[] {
  const sign = text.indexOf('=');
  if (sign > 0) return [...before, { name: text.slice(0, sign).trim(), text: text.slice(sign + 1) }];
  throw new Fault({
    kind: 'usage',
    expected: 'name=value',
    subject: '--set',
    received: `"${text}"`,
    remedy: 'Write for example --set ends=14.',
  });
}

function wholeFrom1(text: string): number {
  const value = Number(text);
  if (Number.isInteger(value) && value >= 1 && value <= 64) return value;
  throw new Fault({
    kind: 'usage',
    expected: 'a whole number from 1 to 64',
    subject: '--workers',
    received: `"${text}"`,
  });
}

export function numberBetween(text: string, low: number, high: number, subject: string): number {
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (value >= low && value <= high) return value;
  throw new Fault({
    kind: 'usage',
    expected: `a number from ${low} to ${high}`,
    subject,
    received: `"${text}"`,
  });
}
