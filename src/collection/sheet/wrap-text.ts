/** A long word breaks after one of these, where it has one. */
const JOINTS = /[-_/.:,]/;

/**
 * Breaks a text into lines at its spaces, or within a word that is longer than a line.
 *
 * @param fits True where a line has room for so much.
 * @param most Lines at most; the last one then ends in an ellipsis. No end where absent.
 */
export function wrapText(
  text: string,
  fits: (line: string) => boolean,
  most = Number.POSITIVE_INFINITY,
): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text
    .split(/\s+/)
    .filter(Boolean)
    .flatMap((one) => pieces(one, fits))) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line === '' || fits(longer)) line = longer;
    else {
      lines.push(line);
      line = word;
    }
    if (lines.length === most) return [...lines.slice(0, -1), shortened(`${lines[most - 1]}…`, fits)];
  }
  return line === '' ? lines : [...lines, line];
}

/** The text, or as much of it as there is room for with an ellipsis after it. */
function shortened(text: string, fits: (line: string) => boolean): string {
  let letters = [...text.replace(/…$/, '')];
  while (letters.length > 0 && !fits(`${letters.join('')}…`)) letters = letters.slice(0, -1);
  return `${letters.join('')}…`;
}

function pieces(word: string, fits: (line: string) => boolean): string[] {
  const found: string[] = [];
  let letters: string[] = [];
  for (const letter of word) {
    if (letters.length > 0 && !fits(letters.join('') + letter)) {
      const joint = letters.findLastIndex((one) => JOINTS.test(one)) + 1 || letters.length;
      found.push(letters.slice(0, joint).join(''));
      letters = letters.slice(joint);
    }
    letters.push(letter);
  }
  return [...found, letters.join('')];
}
