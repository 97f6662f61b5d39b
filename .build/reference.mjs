// npm run reference: writes plugins/REFERENCE.md, what the package exports, from the docstrings.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const PAGE = 'plugins/REFERENCE.md';
const START = '<!-- reference -->';
const END = '<!-- end of reference -->';
/** In the order in which a writer of effects meets them. */
const ROOMS = ['effect', 'field', 'repeat', 'colour', 'fault.ts', 'composite', 'render', 'inspect'];

const ENTRIES = {
  tenter: 'src/index.ts',
  'tenter/render': 'src/render/index.ts',
  'tenter/inspect': 'src/inspect/index.ts',
  'tenter/prove': 'src/effect/prove/index.ts',
};

const PURPOSE = {
  tenter:
    'All that an effect may import. The names in this part are those that the built-in effects and the examples use.',
  'tenter/render':
    'For programs that render: laying layers, passes over bands, calling effects. Runs in Node and in a browser.',
  'tenter/inspect':
    'For programs that look at a tile: does it close, does the repeat show? Runs in Node and in a browser.',
  'tenter/prove': 'For tests of effects: the conformance kit.',
};

/** The reference as Markdown: a line per export; of `tenter` first what the effects here use, then the rest. */
export function makeReference() {
  const program = ts.createProgram(
    Object.values(ENTRIES).map((file) => join(root, file)),
    configOptions(),
  );
  const checker = program.getTypeChecker();
  const used = namesInEffects();
  const parts = [];
  for (const [entry, file] of Object.entries(ENTRIES)) {
    const source = program.getSourceFile(join(root, file));
    const items = checker
      .getExportsOfModule(checker.getSymbolAtLocation(source))
      .map((symbol) => describe(checker, symbol));
    if (entry !== 'tenter') {
      parts.push(`## \`${entry}\``, PURPOSE[entry], ...byRoom(items));
      continue;
    }
    const [first, rest] = [
      items.filter(({ name }) => used.has(name)),
      items.filter(({ name }) => !used.has(name)),
    ];
    parts.push('## `tenter`: what effects use', PURPOSE.tenter, ...byRoom(first));
    parts.push('## `tenter`: the rest', ...byRoom(rest));
  }
  parts.push(mutationTable());
  return parts.join('\n\n');
}

/** What the built-in effects, the template and the pages' examples import from "tenter". */
function namesInEffects() {
  const files = ['plugins', 'src/host/author/start/effect'].flatMap((folder) =>
    readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
      .filter((file) => /\.(ts|md)$/.test(file) && !/\.test\.ts$|testing|NOTES|REFERENCE/.test(file))
      .map((file) => join(root, folder, file)),
  );
  const names = new Set();
  for (const file of files) {
    for (const [, list] of readFileSync(file, 'utf8').matchAll(
      /import (?:type )?\{([^}]*)\} from 'tenter';/g,
    ))
      for (const word of list.split(','))
        names.add(
          word
            .trim()
            .replace(/^type /, '')
            .split(' as ')[0],
        );
  }
  return names;
}

/** The effects that the kit must catch, as a table: what each breaks, in its own words, and the check that catches it. */
function mutationTable() {
  const shelf = join(root, 'tests/broken');
  const list = readFileSync(join(shelf, 'list.ts'), 'utf8');
  const rows = [...list.matchAll(/^ {2}'?([\w-]+)'?: '(\w+)',$/gm)].map(([, name, check]) => ({
    name,
    check,
  }));
  const lines = rows
    .sort((a, b) => (a.check === b.check ? (a.name < b.name ? -1 : 1) : a.check < b.check ? -1 : 1))
    .map(
      ({ name, check }) =>
        `| \`${check}\` | ${name} | ${faultOf(readFileSync(join(shelf, `${name}.ts`), 'utf8'))} |`,
    );
  return [
    '## Broken effects that prove catches',
    `Each breaks one promise and is caught by the check of that promise alone: ${rows.length} of ${rows.length}, by the kit's own tests (\`tests/broken\`).`,
    ['| Check | Effect | What is wrong |', '| --- | --- | --- |', ...lines].join('\n'),
  ].join('\n\n');
}

/** The last docstring before what the file exports: what the effect breaks. */
function faultOf(source) {
  const before = source.slice(0, source.indexOf('export default'));
  const docs = [...before.matchAll(/\/\*\*([\s\S]*?)\*\//g)].map(([, text]) =>
    text.replace(/\s*\n \* ?/g, ' ').trim(),
  );
  return docs.at(-1) ?? '';
}

/** The page with the reference in its place. */
export function withReference(text) {
  const [from, to] = [text.indexOf(START), text.indexOf(END)];
  if (from < 0 || to < from) throw new Error(`${PAGE} has no "${START}" ... "${END}"`);
  return `${text.slice(0, from + START.length)}\n\n${makeReference()}\n\n${text.slice(to)}`;
}

function configOptions() {
  const { config } = ts.readConfigFile(join(root, 'tsconfig.json'), ts.sys.readFile);
  return ts.parseJsonConfigFileContent(config, ts.sys, root).options;
}

function byRoom(items) {
  return ROOMS.flatMap((room) => {
    const own = items.filter((item) => item.room === room);
    return own.length === 0 ? [] : [`**${room.replace('.ts', '')}**`, list(own)];
  });
}

function list(items) {
  return items
    .sort((a, b) => a.rank - b.rank || (a.name < b.name ? -1 : 1))
    .map(({ line }) => line)
    .join('\n');
}

function describe(checker, symbol) {
  const target = symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
  const declaration = target.declarations[0];
  const room = declaration.getSourceFile().fileName.split('/src/')[1].split('/')[0];
  const [signature] = checker.getSignaturesOfType(checker.getTypeOfSymbol(target), ts.SignatureKind.Call);
  const name = symbol.getName();
  const isFunction = Boolean(target.flags & ts.SymbolFlags.Function) && signature !== undefined;
  const title = isFunction
    ? `${name}(${parameterNames(checker, signature)})${returned(checker, signature)}`
    : name;
  const text = firstSentence(ts.displayPartsToString(target.getDocumentationComment(checker)));
  return { name, room, rank: isFunction ? 0 : 1, line: `- \`${title}\`${text ? `: ${text}` : ''}` };
}

/** What it gives, where that is not nothing. */
function returned(checker, signature) {
  const words = checker.typeToString(signature.getReturnType(), undefined, ts.TypeFormatFlags.None);
  return words === 'void' || words.length > 40 ? '' : `: ${words}`;
}

function parameterNames(checker, { parameters }) {
  return parameters
    .map((symbol) => {
      const { name, valueDeclaration } = symbol;
      const type = () => checker.typeToString(checker.getTypeOfSymbol(symbol));
      // One that is taken apart has no name of its own; its type has.
      const word = name.startsWith('__') ? nameOfType(type()) : name;
      return valueDeclaration.questionToken || valueDeclaration.initializer ? `${word}?` : word;
    })
    .join(', ');
}

function nameOfType(type) {
  return /^[A-Z]\w*$/.test(type) ? type.charAt(0).toLowerCase() + type.slice(1) : 'options';
}

/** Up to the first full stop that ends a sentence; titles of papers stand in italics and keep theirs. */
function firstSentence(text) {
  const flat = text
    .replace(/\s+/g, ' ')
    .replace(/(?<![\w`])\*(\S[^*`]*\S)\*(?![\w`])/g, '_$1_')
    .trim();
  const end = /(?<![ (][A-Z])[.:](?= [A-Z-]| ?$)/.exec(flat);
  const sentence = end ? flat.slice(0, end.index) : flat;
  return sentence.charAt(0).toLowerCase() + sentence.slice(1);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const path = join(root, PAGE);
  writeFileSync(path, withReference(readFileSync(path, 'utf8')));
}
