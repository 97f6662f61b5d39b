// npm run reference: writes plugins/REFERENCE.md, what the package exports, from the docstrings.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readExports, root } from './reference/exports.mjs';
import { placeOf, TOPICS } from './reference/topics.mjs';

const PAGE = 'plugins/REFERENCE.md';
const START = '<!-- reference -->';
const END = '<!-- end of reference -->';

const ENTRIES = {
  tenter: 'src/index.ts',
  'tenter/prove': 'src/effect/prove/index.ts',
  'tenter/render': 'src/render/index.ts',
  'tenter/inspect': 'src/inspect/index.ts',
};

const PURPOSE = {
  'tenter/prove': 'For tests of effects: the conformance kit.',
  'tenter/render':
    'For programs that render: laying layers, passes over bands, calling effects. Runs in Node and in a browser.',
  'tenter/inspect':
    'For programs that look at a tile: does it close, does the repeat show? Runs in Node and in a browser.',
};

/** The exports of every entry, read once: it takes seconds. */
let read;
export function exportsOf(entry) {
  read ??= readExports(ENTRIES);
  return read[entry];
}

/** The reference as Markdown: `tenter` by topic with every field of every type, the other entries in short. */
export function makeReference() {
  const parts = TOPICS.flatMap((topic) => {
    const own = exportsOf('tenter').filter((item) => placeOf(item).topic === topic);
    return own.length === 0 ? [] : [`## ${topic.title}`, topic.says, list(own.sort(byPlace), describeWhole)];
  });
  const contents = TOPICS.filter(({ title }) => parts.includes(`## ${title}`)).map(contentLine);
  for (const [entry, purpose] of Object.entries(PURPOSE))
    parts.push(
      `## \`${entry}\``,
      purpose,
      list([...exportsOf(entry)].sort(byName), entry === 'tenter/prove' ? describeWhole : describeShort),
    );
  parts.push(mutationTable());
  return [contents.join('\n'), ...parts].join('\n\n');
}

function contentLine({ title, says }) {
  return `- [${title}](#${title.toLowerCase().replaceAll(' ', '-')}): ${startLow(says)}`;
}

/** The effects that the kit must catch, as a table: what each breaks, in its own words, and the check that catches it. */
function mutationTable() {
  const shelf = join(root, 'tests/broken');
  const list = readFileSync(join(shelf, 'list.ts'), 'utf8');
  const rows = [...list.matchAll(/^ {2}'?([\w-]+)'?: '(\w+)',$/gm)].map(([, name, check]) => ({
    name,
    check,
  }));
  const cells = rows
    .sort((a, b) => (a.check === b.check ? (a.name < b.name ? -1 : 1) : a.check < b.check ? -1 : 1))
    .map(({ name, check }) => [
      `\`${check}\``,
      name,
      faultOf(readFileSync(join(shelf, `${name}.ts`), 'utf8')),
    ]);
  return [
    '## Broken effects that prove catches',
    `Each breaks one promise and is caught by the check of that promise alone: ${rows.length} of ${rows.length}, by the kit's own tests (\`tests/broken\`).`,
    table(['Check', 'Effect', 'What is wrong'], cells),
  ].join('\n\n');
}

/** A table as the formatter of the project writes it: columns of one width. */
function table(head, rows) {
  const widths = head.map((_, k) => Math.max(...[head, ...rows].map((cells) => cells[k].length)));
  const line = (cells) => `| ${cells.map((cell, k) => cell.padEnd(widths[k])).join(' | ')} |`;
  return [line(head), line(widths.map((width) => '-'.repeat(width))), ...rows.map(line)].join('\n');
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

/** As a list, each export with what there is to say of its parts. */
function list(items, describe) {
  return items.map(describe).join('\n');
}

function byPlace(a, b) {
  const [first, second] = [placeOf(a).order, placeOf(b).order];
  const at = first.findIndex((key, index) => key !== second[index]);
  return at < 0 ? 0 : first[at] < second[at] ? -1 : 1;
}

function byName(a, b) {
  return a.name < b.name ? -1 : 1;
}

function describeWhole(item) {
  const { means, fields } = item;
  const short = means === undefined ? [] : [`  - is \`${means}\``];
  const lines = fields.map(({ title, text }) => `  - \`${title}\`${text ? `: ${startLow(tidy(text))}` : ''}`);
  return [describeShort(item), ...short, ...lines].join('\n');
}

function describeShort({ title, text }) {
  return `- \`${title}\`${text ? `: ${startLow(firstSentence(tidy(text)))}` : ''}`;
}

/** Titles of papers stand in italics. */
function tidy(text) {
  return text.replace(/(?<![\w`])\*(\S[^*`]*\S)\*(?![\w`])/g, '_$1_');
}

/** Up to the first full stop that ends a sentence; a single capital before it is an initial. */
function firstSentence(text) {
  const end = /(?<![ (_][A-Z])[.:](?= [A-Z-]| ?$)/.exec(text);
  return end ? text.slice(0, end.index) : text;
}

function startLow(text) {
  const isName = /^(\w[A-Z0-9]|R, G, B)/.test(text);
  return isName ? text : text.charAt(0).toLowerCase() + text.slice(1);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const path = join(root, PAGE);
  writeFileSync(path, withReference(readFileSync(path, 'utf8')));
}
