import { describeNotReached, describeWaiting } from '../effect/prove/expect.ts';
import type { CheckName, CheckResult, Failure, Figures, ProofReport } from '../effect/prove/report.ts';
import { describeTrial } from '../effect/prove/trial.ts';
import { trimNumber } from '../repeat/length.ts';
import type { Ways } from './see-it.ts';

type Pictures = ReadonlyMap<CheckName, string>;

const WORDS = {
  passed: 'kept',
  failed: 'NOT KEPT',
  'not applicable': 'not tried',
  'not reached': 'not reached',
} as const;

/** Prints a proof: one line per check in words, and of each failure what, with which setting, and how to see it. */
export function printProof(report: ProofReport, pictures: Pictures, ways: Ways): void {
  for (const result of report.results) printResult(result, firstWith(report, result), pictures, ways);
  console.log(`${report.effect} ${report.version}: ${verdictOf(report)}${secondsOf(report)}\n`);
}

function secondsOf({ seconds = 0 }: ProofReport): string {
  return seconds > 0 ? ` (${seconds.toFixed(1)} s)` : '';
}

function verdictOf({ proven, results }: ProofReport): string {
  if (proven) return 'proven';
  const failed = results.filter(({ status }) => status === 'failed').length;
  const waiting = describeWaiting(results);
  const broken =
    failed &&
    `NOT PROVEN: ${failed} ${failed === 1 ? 'promise' : 'promises'} not kept${waiting ? `; ${waiting}` : ''}`;
  const missed = describeNotReached(results);
  const unfinished =
    missed &&
    `NOT FINISHED: ${missed}. Raise --proof-limit, or try --quick, or one check by itself with --check; --json tells what each has cost`;
  return [broken, unfinished].filter((part) => part).join('; ');
}

/** The check that told the same fault first, so that it is not told twice. */
function firstWith({ results }: ProofReport, { check, ...result }: CheckResult): CheckName | undefined {
  if (result.status !== 'failed') return undefined;
  const key = faultOf(result.failure);
  const first = results.find((other) => other.status === 'failed' && faultOf(other.failure) === key);
  return first && first.check !== check ? first.check : undefined;
}

/** What is wrong and what to do, without what was counted. */
function faultOf({ expected, received, remedy }: Failure): string {
  return [expected, received.replace(/-?\d[\d.e+-]*/g, 'N'), remedy].join('|');
}

function printResult(
  result: CheckResult,
  toldUnder: CheckName | undefined,
  pictures: Pictures,
  ways: Ways,
): void {
  console.log(
    `${result.check.padEnd(10)}  ${WORDS[result.status].padEnd(11)}  ${result.promise}${asides(result)}`,
  );
  if (result.status !== 'failed') return;
  const { check, failure } = result;
  const told = toldUnder ? `The same fault as under "${toldUnder}": mend that first.` : failure.sentence;
  printFailure(told, failure.setting, ways.get(check) ?? [], pictures.get(check));
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

function printFailure(
  told: string,
  setting: Failure['setting'],
  ways: readonly (readonly [string, string])[],
  picture: string | undefined,
): void {
  console.log(`    ${told}`);
  printRow('with', describeTrial(setting));
  for (const [label, command] of ways) printRow(label, command);
  if (picture) printRow('picture', picture);
}

function printRow(label: string, words: string): void {
  console.log(`    ${label.padEnd(LABEL)} ${words}`);
}

const LABEL = 8;

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
