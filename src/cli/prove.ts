import { type Command, Option } from 'commander';
import { CHECKS } from '../effect/prove/checks/index.ts';
import type { CheckName } from '../effect/prove/report.ts';
import { Fault } from '../fault.ts';
import { provePlugin } from '../host/author/prove-plugin.ts';
import { findEffect, openShelf, type ShelvedEffect } from '../host/plugins/shelf.ts';
import { CHECK_LIMITS } from '../host/threads/prove-thread.ts';
import { askOnTerminal } from './ask.ts';
import { EXIT } from './exit-codes.ts';
import {
  jsonOption,
  limitsOf,
  memoryLimitOption,
  numberBetween,
  pluginsOption,
  timeLimitOption,
  trustOption,
} from './options.ts';
import { printProof, proofFacts } from './print-proof.ts';
import { writeProofPictures } from './proof-pictures.ts';
import { runLong } from './run-long.ts';
import { type Ways, waysToSee } from './see-it.ts';
import { type PluginFlags, shelfOf } from './shelf-of.ts';

interface ProveFlags extends PluginFlags {
  readonly presets: boolean;
  readonly check: readonly CheckName[];
  readonly out: string;
  readonly quick?: boolean;
  readonly overwrite?: boolean;
  readonly timeLimit?: number;
  readonly memoryLimit?: number;
  readonly proofLimit?: number;
}

const EXAMPLES = `
Examples:
  tenter prove ./frosted-glass
  tenter prove linen-weave wood-grain --quick
  tenter prove ./frosted-glass --check periodic --check seam

Each check runs in a thread that is stopped where a call takes too long or too much memory, and the
proof of an effect where all of it takes too long: what was not reached is named, and is not proven.
Pictures are written only of what failed; beside older ones they get a number.`;

/** Adds `tenter prove`. */
export function addProve(program: Command): void {
  program
    .command('prove')
    .description(
      'Tries every promise of the contract on an effect and its presets, and shows what is not kept.',
    )
    .argument('<effect...>', 'effects by name, or files and folders of plugins')
    .addOption(pluginsOption())
    .addOption(trustOption())
    .addOption(checkOption())
    .option('--no-presets', 'leave the presets out')
    .option('--quick', 'fewer sizes of repeat and fewer random settings')
    .option('--out <folder>', 'where to write pictures of what failed', 'proof')
    .option('--overwrite', 'replace older pictures of the same name')
    .addOption(timeLimitOption(CHECK_LIMITS.seconds))
    .addOption(memoryLimitOption())
    .addOption(proofLimitOption())
    .addOption(jsonOption())
    .addHelpText('after', EXAMPLES)
    .action(proveAll);
}

function proofLimitOption(): Option {
  return new Option(
    '--proof-limit <seconds>',
    `stop the whole proof of an effect after this long; default ${CHECK_LIMITS.proofSeconds}`,
  ).argParser((text) => numberBetween(text, 0.1, 86_400, '--proof-limit'));
}

function checkOption(): Option {
  const names = CHECKS.map(({ name }) => name);
  return new Option('--check <name>', `only this check; may be given many times: ${names.join(', ')}`)
    .argParser((text: string, before: readonly CheckName[]) => [...before, readCheck(text, names)])
    .default([], 'all');
}

/** @throws Fault (usage) for anything but the name of a check. */
function readCheck(text: string, names: readonly CheckName[]): CheckName {
  const name = names.find((candidate) => candidate === text);
  if (name) return name;
  throw new Fault({
    kind: 'usage',
    expected: `one of ${names.join(', ')}`,
    subject: '--check',
    received: `"${text}"`,
  });
}

async function proveAll(given: readonly string[], flags: ProveFlags): Promise<void> {
  const found = await findAll(given, flags);
  const facts: object[] = [];
  let isProven = true;
  for (const plugin of found) {
    const places = [...flags.plugins, ...given.filter(isPlace)];
    const { report, ways } = await runLong(flags, async ({ signal, onProgress }) => {
      let ended = 0;
      const report = await provePlugin(
        { ...plugin, presets: flags.presets ? plugin.presets : [] },
        {
          quick: flags.quick,
          checks: flags.check.length ? flags.check : undefined,
          limits: {
            ...limitsOf(flags),
            ...(flags.proofLimit !== undefined && { proofSeconds: flags.proofLimit }),
          },
          signal,
          onResult: ({ check }) => onProgress?.(++ended / CHECKS.length, `${plugin.effect.name}: ${check}`),
        },
      );
      const asked = { places, trust: flags.trust, quick: flags.quick, out: flags.out };
      const ways: Ways = flags.json ? new Map() : await waysToSee(report, plugin, asked, signal);
      return { report, ways };
    });
    const pictures = await writeProofPictures(report, flags.out, flags.overwrite);
    isProven &&= report.proven;
    if (flags.json) facts.push(proofFacts(report, pictures));
    else printProof(report, pictures, ways);
  }
  if (flags.json) console.log(JSON.stringify({ proven: isProven, effects: facts }, null, 2));
  process.exitCode = isProven ? EXIT.ok : EXIT.open;
}

async function findAll(given: readonly string[], flags: ProveFlags): Promise<ShelvedEffect[]> {
  const places = given.filter(isPlace);
  const names = given.filter((text) => !isPlace(text));
  const consent = { trust: flags.trust, ask: askOnTerminal({ quiet: flags.json }) };
  const brought = await openShelf(places, { consent, builtIn: false });
  if (brought.faults.length > 0) throw brought.faults[0];
  const shelf = names.length > 0 ? await shelfOf(flags) : undefined;
  return [...brought.effects.values(), ...names.map((name) => findEffect(shelf!, name))];
}

/** Names of effects have neither slashes nor dots. */
function isPlace(text: string): boolean {
  return /[\\/.]/.test(text);
}
