import { Command } from 'commander';
import { expect, it } from 'vitest';
import { addCommands, COMMANDS } from './commands.ts';

async function listed(asked: readonly string[]): Promise<string[]> {
  const program = new Command('tenter');
  await addCommands(program, asked);
  const help = program.createHelp();
  return program.commands.map((command) => `${help.subcommandTerm(command)}: ${command.summary()}`);
}

it.each(COMMANDS)('$name is listed alike whether it is loaded or not', async ({ name }) => {
  expect(await listed([name])).toEqual(await listed([]));
});

it('only the command that is asked for is loaded, help of it too', async () => {
  for (const asked of [
    ['check', 'lay'],
    ['--json', 'check'],
    ['help', 'check'],
  ]) {
    const program = new Command('tenter');
    await addCommands(program, asked);
    const loaded = program.commands.filter((command) => command.description() !== '');
    expect(loaded.map((command) => command.name())).toEqual(['check']);
  }
});

it.each([
  ['--trap', ['--trap', '0.2mm']],
  ['--overprint', ['--overprint', 'leaf']],
  ['--dots', ['--dots']],
])('pack refuses %s where no plates are made', async (name, flags) => {
  const program = new Command('tenter');
  await addCommands(program, ['pack']);
  const packing = program.parseAsync(['pack', 'tile.png', ...flags], { from: 'user' });
  await expect(packing).rejects.toThrow(`Expected --plates with it for ${name}`);
});
