import { formatSize, trimNumber } from '../repeat/length.ts';
import type { ParcelFacts } from './facts.ts';
import { layoutWords, pixelWords, profileWords } from './words.ts';

const WIDTH = 92;

/** The text that goes with a parcel, for whoever opens it first. */
export function readMe(facts: ParcelFacts): string {
  const { name, repeat, print, seams, card, cautions, files } = facts;
  const sections = [
    [heading(name, '='), wrap(`A design in repeat, for printing. Made with tenter ${facts.tenter}.`)],
    [
      heading('The repeat', '-'),
      wrap(`Size     ${formatSize({ width: repeat.widthMm, height: repeat.heightMm })}`),
      wrap(`Layout   ${layoutWords(facts)}`),
      wrap(`Pixels   ${pixelWords(facts)}`),
      wrap(`Colours  ${profileWords(print)}`),
      wrap(`Closes   ${seams.summary}`),
    ],
    [
      heading('Does it close? See for yourself', '-'),
      wrap(
        `Put copies of ${print.file} beside each other: the next copy to the right stands ${stepWords(repeat.across)}; the next copy below stands ${stepWords(repeat.down)}. At the joins nothing may jump or break off.`,
      ),
    ],
    [heading('Screens and inks, in the order of printing', '-'), ...inkLines(card)],
    [
      heading('Which file is what', '-'),
      ...files.filter(({ name: file }) => file !== 'README.txt').map(fileLines),
    ],
    [
      heading('Is it the right file?', '-'),
      wrap(
        'Each file has a fingerprint, SHA-256: 64 letters and figures. They stand above and in parcel.json; the strike-off sheet shows how they begin. Compute it again and compare:',
      ),
      ...['sha256sum FILE                 (Linux)', 'shasum -a 256 FILE             (macOS)'].map(indent),
      indent('certutil -hashfile FILE SHA256 (Windows)'),
    ],
    [heading('To be careful of', '-'), ...cautions.map((caution) => wrap(`- ${caution}`, '  '))],
  ];
  return `${sections.map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

function inkLines(card: ParcelFacts['card']): string[] {
  if (!card)
    return [
      wrap(
        'No shade card came with this design: it is in continuous tone. Ask the sender before cutting screens.',
      ),
    ];
  const longest = Math.max(...card.inks.map(({ name }) => name.length));
  const lines = card.inks.map(({ order, name, colour, percent, cm2, note }) => {
    const place = order === undefined ? 'ground, not printed' : `screen ${order}`;
    const amount = `${trimNumber(percent, 1)} % of the repeat, ${trimNumber(cm2, 1)} cm2`;
    return wrap(`${name.padEnd(longest)}  ${colour}  ${place}: ${amount}${note ? `. ${note}` : ''}`, '  ');
  });
  return [
    `${card.screens} ${card.screens === 1 ? 'screen' : 'screens'}, by the shade card "${card.name}".`,
    ...lines,
  ];
}

function fileLines({ name, what, bytes, sha256 }: ParcelFacts['files'][number]): string {
  return [name, indent(wrap(what, '  ')), indent(`${bytes} bytes`), indent(`SHA-256 ${sha256}`)].join('\n');
}

function stepWords({ x, y }: { x: number; y: number }): string {
  const right = x === 0 ? '' : `${trimNumber(x, 3)} mm to the right`;
  const below = y === 0 ? '' : `${trimNumber(y, 3)} mm down`;
  return [right, below].filter(Boolean).join(' and ');
}

function heading(text: string, line: string): string {
  return `${text}\n${line.repeat(Math.min(WIDTH, text.length))}`;
}

function indent(text: string): string {
  return `  ${text}`;
}

function wrap(text: string, hang = ''): string {
  const lines: string[] = [''];
  for (const word of text.split(/(?<=\S)\s(?=\S)/)) {
    const line = lines.at(-1)!;
    if (line.trim() !== '' && line.length + word.length + 1 > WIDTH) lines.push(hang + word);
    else lines[lines.length - 1] = line === '' ? word : `${line} ${word}`;
  }
  return lines.join('\n');
}
