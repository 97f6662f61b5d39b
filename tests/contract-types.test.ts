import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { beforeAll, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));

/** An effect as its author would write it, with one piece replaced. */
function effect(
  changes: { parameter?: string; planes?: string; prepare?: string; paint?: string } = {},
): string {
  const {
    parameter = "numeric({ unit: 'mm', min: 1, max: 9, default: 3, help: 'How wide.' })",
    planes = "['shade']",
    prepare = '({ parameters }) => ({ perMm: 1 / parameters.width })',
    paint = '(model, band, layer) => { layer.shade[0] = model.perMm * band.width; }',
  } = changes;
  return `import { choice, colour, defineEffect, numeric, toggle } from 'tenter';
    export default defineEffect({ apiVersion: 1, name: 'a', version: '1.0.0', summary: 'A.',
      parameters: { width: ${parameter} }, planes: ${planes}, prepare: ${prepare}, paint: ${paint} });`;
}

const SOUND: Record<string, string> = {
  'a number': effect(),
  'a choice, narrowed to its words': effect({
    parameter: "choice({ options: ['fine', 'bold'], default: 'fine', help: 'Which.' })",
    prepare: "({ parameters }) => ({ perMm: parameters.width === 'bold' ? 1 : 2 })",
  }),
  'a switch': effect({
    parameter: "toggle({ default: true, help: 'Whether.' })",
    prepare: '({ parameters }) => ({ perMm: parameters.width ? 1 : 2 })',
  }),
  'several planes': effect({
    planes: "['shade', 'shift']",
    paint: '(model, band, layer) => { layer.shift[0] = layer.shade[0] * model.perMm; }',
  }),
};

/** What must not compile, and the word by which the compiler names the fault. */
const BROKEN: Record<string, [code: string, word: string]> = {
  'an unknown unit': [
    effect({ parameter: "numeric({ unit: 'inches', min: 1, max: 9, default: 3, help: 'How wide.' })" }),
    'inches',
  ],
  'a number without a unit': [
    effect({ parameter: "numeric({ min: 1, max: 9, default: 3, help: 'How wide.' })" }),
    'unit',
  ],
  'a parameter without help': [
    effect({ parameter: "numeric({ unit: 'mm', min: 1, max: 9, default: 3 })" }),
    'help',
  ],
  'a default that is not among the options': [
    effect({
      parameter: "choice({ options: ['fine', 'bold'], default: 'broad', help: 'Which.' })",
      prepare: '() => ({ perMm: 1 })',
    }),
    'broad',
  ],
  'a plane that does not exist': [effect({ planes: "['gloss']" }), 'gloss'],
  'a plane that was not declared': [
    effect({ paint: '(model, band, layer) => { layer.load[0] = 1; }' }),
    'load',
  ],
  'a parameter that was not declared': [
    effect({ prepare: '({ parameters }) => ({ perMm: parameters.height })' }),
    'height',
  ],
  'a parameter that is written to': [
    effect({ prepare: '({ parameters }) => { parameters.width = 2; return { perMm: 1 }; }' }),
    'read-only',
  ],
  'a part of the model that prepare does not make': [
    effect({ paint: '(model, band, layer) => { layer.shade[0] = model.perInch; }' }),
    'perInch',
  ],
  'no paint': [effect().replace(/, paint: .*;/s, ' });'), 'paint'],
};

let messages: Map<string, string[]>;

beforeAll(() => {
  const codes = {
    ...SOUND,
    ...Object.fromEntries(Object.entries(BROKEN).map(([name, [code]]) => [name, code])),
  };
  messages = compile(codes);
}, 60_000);

/** The compiler's errors for each module, all compiled together as in an author's editor. */
function compile(codes: Record<string, string>): Map<string, string[]> {
  const { config } = ts.readConfigFile(join(root, 'tsconfig.json'), ts.sys.readFile);
  const { options } = ts.parseJsonConfigFileContent(config, ts.sys, root);
  const files = new Map(
    Object.entries(codes).map(([name, code], index) => [
      join(root, `tests/snippet-${index}.ts`),
      { name, code },
    ]),
  );
  const host = ts.createCompilerHost(options);
  const { getSourceFile, fileExists, readFile } = host;
  host.getSourceFile = (path, ...rest) => {
    const file = files.get(path);
    return file
      ? ts.createSourceFile(path, file.code, ts.ScriptTarget.ES2022)
      : getSourceFile.call(host, path, ...rest);
  };
  host.fileExists = (path) => files.has(path) || fileExists.call(host, path);
  host.readFile = (path) => files.get(path)?.code ?? readFile.call(host, path);
  const program = ts.createProgram([...files.keys()], options, host);
  return new Map(
    [...files].map(([path, { name }]) => [
      name,
      ts
        .getPreEmitDiagnostics(program, program.getSourceFile(path))
        .map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, '\n')),
    ]),
  );
}

describe('the types of the contract', () => {
  it.each(Object.keys(SOUND))('take %s', (name) => {
    expect(messages.get(name)).toEqual([]);
  });
  it.each(Object.entries(BROKEN))('refuse %s', (name, [, word]) => {
    expect(messages.get(name)?.join('\n')).toContain(word);
  });
});
