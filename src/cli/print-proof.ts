import { describeNotReached } from '../effect/prove/expect.ts';
import type { CheckName, CheckResult, Failure, Figures, ProofReport } from '../effect/prove/report.ts';
import { describeTrial, type Trial } from '../effect/prove/trial.ts';
import { writtenValue } from '../effect/value.ts';
import { formatDensity, trimNumber } from '../repeat/length.ts';

type Pictures = ReadonlyMap<CheckName, string>;

const WORDS = {
  passed: 'kept',
  failed: 'NOT KEPT',
  'not applicable': 'not tried',
  'not reached': 'not reached',
} as const;

/**
 * Prints a proof: one line per check in words, and of each failure what, with which setting, and how to see it.
 *
 * @param places Where the command that draws it has to look for the effect.
 */
export function printProof(
  report: ProofReport,
  pictures: Pictures,
  places: readonly string[],
  trust = false,
): void {
  const plugins = places.map((place) => `--plugins ${quoted(place)}`);
  const effect = [report.effect, ...plugins, ...(trust ? ['--trust'] : [])].join(' ');
  for (const result of report.results) printResult(effect, result, pictures);
  console.log(`${report.effect} ${report.version}: ${verdictOf(report)}${secondsOf(report)}\n`);
}

function secondsOf({ seconds = 0 }: ProofReport): string {
  return seconds > 0 ? ` (${seconds.toFixed(1)} s)` : '';
}

function verdictOf({ proven, results }: ProofReport): string {
  if (proven) return 'proven';
  const failed = results.filter(({ status }) => status === 'failed').length;
  const broken = failed && `NOT PROVEN: ${failed} ${failed === 1 ? 'promise' : 'promises'} not kept`;
  const missed = describeNotReached(results);
  const unfinished =
    missed &&
    `NOT FINISHED: ${missed}. Raise --proof-limit, or try --quick, or one check by itself with --check; --json tells what each has cost`;
  return [broken, unfinished].filter((part) => part).join('; ');
}

function printResult(effect: string, result: CheckResult, pictures: Pictures): void {
  console.log(
    `${result.check.padEnd(10)}  ${WORDS[result.status].padEnd(11)}  ${result.promise}${asides(result)}`,
  );
  if (result.status === 'failed') printFailure(effect, result.failure, pictures.get(result.check));
}

function asides(result: CheckResult): string {
  // What was not reached has one reason, told at the end.
  if (result.status === 'not reached') return '';
  const figures = result.status === 'passed' ? figuresInWords(result.figures) : '';
  const note = result.status === 'failed' ? '' : result.note;
  // What it cost, so that whoever waits knows for what.
  const cost = result.seconds === undefined ? '' : `${result.seconds.toFixed(1)} s`;
  const words = [note, figures, cost].filter((part) => part).join('; ');
  return words ? ` (${words})` : '';
}

function figuresInWords(figures: Figures = {}): string {
  return Object.entries(figures)
    .map(([name, value]) => `${name}: ${trimNumber(value, 3)}`)
    .join(', ');
}

function printFailure(effect: string, { sentence, setting }: Failure, picture: string | undefined): void {
  console.log(`    ${sentence}`);
  console.log(`    with     ${describeTrial(setting)}`);
  console.log(`    see it   ${commandFor(effect, setting)}`);
  if (picture) console.log(`    picture  ${picture}`);
}

/** The command that draws the failing setting. */
function commandFor(
  effect: string,
  { layout, width, height, pixelsPerMm, seed, quality, parameters }: Trial,
): string {
  const set = Object.entries(parameters).map(
    ([name, value]) => `--set ${quoted(`${name}=${writtenValue(value)}`)}`,
  );
  const density = formatDensity(pixelsPerMm).replace(' ', '');
  return [
    `tenter make ${effect} --size ${writtenValue(width)}x${writtenValue(height)}mm --layout ${layout} --dpi ${density} --fit`,
    ...(seed === '1' ? [] : [`--seed ${quoted(seed)}`]),
    ...set,
    ...(quality === 'sketch' ? ['--sketch'] : []),
    '--out failing.png --overwrite',
  ].join(' ');
}

function quoted(text: string): string {
  return /^[\w=./:-]+$/.test(text) ? text : `"${text}"`;
}

/** A proof for scripts: the same facts, with files instead of pixels. */
export function proofFacts({ results, ...report }: ProofReport, pictures: Pictures): object {
  return {
    ...report,
    results: results.map((result) => {
      if (result.status !== 'failed') return result;
      const { picture: _, ...failure } = result.failure;
      return { ...result, failure: { ...failure, picture: pictures.get(result.check) } };
    }),
  };
}
