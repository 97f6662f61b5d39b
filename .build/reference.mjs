// npm run reference: writes the reference of the public entry into DEVELOPERS.md, from the docstrings.
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const START = '<!-- reference: made by "npm run reference" from the docstrings -->';
const END = '<!-- end of reference -->';
/** In the order in which a writer of effects meets them. */
const ROOMS = ['effect', 'field', 'repeat', 'colour', 'composite', 'inspect', 'fault.ts'];

const ENTRIES = {
  tenter: 'src/index.ts',
  'tenter/prove': 'src/effect/prove/index.ts',
};

/** The reference as Markdown: a line per export, by room. */
export function makeReference() {
  const program = ts.createProgram(
    Object.values(ENTRIES).map((file) => join(root, file)),
    configOptions(),
  );
  const checker = program.getTypeChecker();
  const parts = [];
  for (const [entry, file] of Object.entries(ENTRIES)) {
    const source = program.getSourceFile(join(root, file));
    if (!source) continue;
    const items = checker
      .getExportsOfModule(checker.getSymbolAtLocation(source))
      .map((symbol) => describe(checker, symbol));
    parts.push(`### \`${entry}\``, ...(entry === 'tenter' ? byRoom(items) : [list(items)]));
  }
  return parts.join('\n\n');
}

/** DEVELOPERS.md with the reference in its place. */
export function withReference(text) {
  const [from, to] = [text.indexOf(START), text.indexOf(END)];
  if (from < 0 || to < from) throw new Error(`DEVELOPERS.md has no "${START}" ... "${END}"`);
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
  const path = join(root, 'DEVELOPERS.md');
  writeFileSync(path, withReference(readFileSync(path, 'utf8')));
}
