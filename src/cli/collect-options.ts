import type { Command } from 'commander';
import {
  type Item,
  itemsOfShard,
  type Plan,
  parseShard,
  planCollection,
  readCollection,
  type Shard,
  wordsOfList,
} from '../collection/index.ts';
import { Fault } from '../fault.ts';
import { readTextFile, readTextStream } from '../host/files/text-file.ts';
import type { Shelf } from '../host/plugins/shelf.ts';
import { parseDensity } from '../repeat/length.ts';
import { collect, jsonOption, pluginsOption, trustOption } from './options.ts';
import { type PluginFlags, shelfOf } from './shelf-of.ts';

/** Options that say which renders of a collection are meant. */
export interface PlanFlags extends PluginFlags {
  readonly out?: string;
  readonly only: readonly string[];
  readonly dpi?: number;
  readonly shard?: Shard;
  readonly most?: number;
  readonly verify?: boolean;
}

/** Adds the options that all verbs on a collection share. */
export function addPlanFlags(command: Command): Command {
  return command
    .argument('<collection>', 'the collection file (.json)')
    .option('--out <folder>', 'another output folder than the file names')
    .option(
      '--only <name>',
      'only this render, by name or by the first 8 letters of its address, or those that a text file lists; may be given many times',
      collect,
      [],
    )
    .option('--dpi <density>', 'at this density, e.g. 300; they go to a folder of their own', parseDensity)
    .option('--shard <part>', 'only part i of n, e.g. 2/3: the same parts on every machine', parseShard)
    .option('--most <count>', 'allow so many combinations; default 100000', wholeNumber)
    .option('--verify', 'read pictures whole before they count as made')
    .addOption(pluginsOption())
    .addOption(trustOption())
    .addOption(jsonOption());
}

/** A plan and the part of it that this command is about. */
export interface OpenedPlan {
  readonly plan: Plan;
  readonly items: readonly Item[];
  readonly shelf: Shelf;
}

/** Reads a collection and plans it as the options say. @throws Fault. */
export async function openPlan(file: string, flags: PlanFlags): Promise<OpenedPlan> {
  const shelf = await shelfOf(flags);
  const only = flags.only.length ? (await Promise.all(flags.only.map(wordsFrom))).flat() : undefined;
  const { out, dpi, most } = flags;
  const plan = await planCollection(await readCollection(file), shelf, { out, dpi, most, only });
  return { plan, items: flags.shard ? itemsOfShard(plan.items, flags.shard) : plan.items, shelf };
}

/** Names of renders end in .png or .tif or in nothing; a list is a text file. */
export async function wordsFrom(word: string): Promise<string[]> {
  if (!/\.(txt|list|json)$/i.test(word) && word !== '-') return [word];
  const text = await (word === '-'
    ? readTextStream(process.stdin, '--only -', LIST)
    : readTextFile(word, LIST));
  const words = wordsOfList(text);
  if (words.length > 0) return words;
  const received = 'a list with nothing in it';
  throw new Fault({ kind: 'input', ...LIST, subject: `--only ${word}`, received });
}

const LIST = {
  expected: 'a text file with one name or address to a line',
  remedy: 'Check the name; "--only -" reads the list from standard input.',
};

/** @throws Fault (usage) for anything but a whole number above 0. */
export function wholeNumber(text: string): number {
  const value = Number(text);
  if (Number.isSafeInteger(value) && value > 0) return value;
  throw new Fault({
    kind: 'usage',
    expected: 'a whole number from 1',
    subject: 'an option',
    received: `"${text}"`,
  });
}

const BYTES: Readonly<Record<string, number>> = { mb: 1e6, gb: 1e9 };

/** Reads `2GB` or `1500MB`. @returns Bytes. @throws Fault (usage). */
export function parseMemory(text: string): number {
  const match = /^(\d+(?:\.\d+)?)\s*(mb|gb)$/i.exec(text.trim());
  const bytes = match ? Number(match[1]) * BYTES[match[2].toLowerCase()] : 0;
  if (bytes >= 400e6) return bytes;
  throw new Fault({
    kind: 'usage',
    expected: 'an amount of memory from 400MB, e.g. 1500MB or 4GB',
    subject: '--memory',
    received: `"${text}"`,
  });
}
