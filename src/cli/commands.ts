import { type Command, Option } from 'commander';

/** A command as `tenter --help` lists it, and where the rest of it stands. */
export interface CommandWord {
  readonly name: string;
  /** Its arguments, as its usage writes them. */
  readonly takes: string;
  readonly summary: string;
  /** True where it has verbs of its own, and no options. */
  readonly isGroup?: boolean;
  /** Loads what the command needs, and gives what adds it to the program. */
  load(): Promise<(program: Command) => void>;
}

export const COMMANDS: readonly CommandWord[] = [
  {
    name: 'open',
    takes: '[place]',
    summary: 'open the cloth on screen: lay, see and steer textures on a page',
    load: async () => (await import('./open.ts')).addOpen,
  },
  {
    name: 'lay',
    takes: '<effect-or-recipe> <tile>',
    summary: 'lay an effect or a recipe over an artwork tile',
    load: async () => (await import('./lay.ts')).addLay,
  },
  {
    name: 'make',
    takes: '<effect>',
    summary: 'make a texture alone, as a tile that closes',
    load: async () => (await import('./make.ts')).addMake,
  },
  {
    name: 'check',
    takes: '<picture>',
    summary: 'check whether a picture closes over its layout',
    load: async () => (await import('./check.ts')).addCheck,
  },
  {
    name: 'close',
    takes: '<picture>',
    summary: 'make a painting that does not close over its layout close',
    load: async () => (await import('./close.ts')).addClose,
  },
  {
    name: 'inks',
    takes: '<picture>',
    summary: 'find the inks of an artwork, and write them as a shade card',
    load: async () => (await import('./inks.ts')).addInks,
  },
  {
    name: 'plates',
    takes: '<picture>',
    summary: 'separate a tile into one plate per ink of its shade card',
    load: async () => (await import('./plates.ts')).addPlates,
  },
  {
    name: 'colourways',
    takes: '<tile>',
    summary: 'recolour a tile to other inks, and draw its colourways side by side',
    load: async () => (await import('./colourways.ts')).addColourways,
  },
  {
    name: 'effects',
    takes: '[name]',
    summary: 'list the effects, presets and recipes, or describe one',
    load: async () => (await import('./effects.ts')).addEffects,
  },
  {
    name: 'collect',
    takes: '',
    summary: 'render a collection: many tiles, recipes, strengths and seeds from one file',
    isGroup: true,
    load: async () => (await import('./collect.ts')).addCollect,
  },
  {
    name: 'pack',
    takes: '<what...>',
    summary: 'pack designs for the mill: print, layers, strike-off sheet and fingerprints',
    load: async () => (await import('./pack.ts')).addPack,
  },
  {
    name: 'start',
    takes: '<name>',
    summary: 'start a new effect or recipe of your own',
    load: async () => (await import('./start.ts')).addStart,
  },
  {
    name: 'watch',
    takes: '<folder>',
    summary: 'draw an effect again with every save while you write it',
    load: async () => (await import('./watch.ts')).addWatch,
  },
  {
    name: 'prove',
    takes: '<effect...>',
    summary: 'try whether an effect keeps the contract of effects',
    load: async () => (await import('./prove.ts')).addProve,
  },
];

/**
 * Adds all commands, but only the one that is asked for whole: what the others need takes longer to load
 * than most commands to run.
 *
 * @param asked The words after `tenter`.
 */
export async function addCommands(program: Command, asked: readonly string[]): Promise<void> {
  const words = asked.filter((word) => !word.startsWith('-'));
  const wanted = words[0] === 'help' ? words[1] : words[0];
  for (const command of COMMANDS) {
    if (command.name === wanted) (await command.load())(program);
    else addName(program, command);
    program.commands.at(-1)!.summary(command.summary);
  }
}

/** As much of a command as its line in the list shows. */
function addName(program: Command, { name, takes, isGroup }: CommandWord): void {
  const command = program.command(`${name} ${takes}`.trim());
  if (!isGroup) command.addOption(new Option('--json').hideHelp());
}
