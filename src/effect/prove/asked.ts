import { trimNumber } from '../../repeat/length.ts';
import type { Report } from '../effect.ts';
import type { NumberParameter, Parameter } from '../parameter.ts';
import type { Bench } from './bench.ts';
import { Failed } from './failed.ts';
import { HOME, type Trial } from './trial.ts';

/** What is counted comes to another size in each: what came is what was asked in one of them by chance alone. */
const TRIALS: readonly Trial[] = [
  { ...HOME, quality: 'sketch' },
  { ...HOME, width: 41.3, height: 29.7, quality: 'sketch' },
  { ...HOME, layout: 'straight', width: 63.7, height: 46.3, quality: 'sketch' },
];

/**
 * Holds what is reported as asked to the numbers that were: a figure called as a parameter is, and of its unit, was
 * asked as this parameter's value; and what came to a parameter's value in every box, where something else is said to
 * have been asked, is the other way round. What is asked of several values together is not looked at.
 *
 * @throws Failed
 */
export async function tryAsked(bench: Bench): Promise<void> {
  const tried: (readonly [Trial, readonly NumberReport[]])[] = [];
  for (const trial of TRIALS) {
    const reports = await reportsOf(bench, trial);
    if (reports) tried.push([trial, reports.filter(hasNumbers)]);
  }
  const numbers = Object.entries<Parameter>(bench.effect.parameters).filter(isNumber);
  for (const [name, parameter] of numbers) {
    refuseSwapped(tried, name, parameter);
    refuseOther(tried, name, parameter);
  }
}

/** As many decimals as the host prints. */
const PLACES = 3;

type Tried = readonly (readonly [Trial, readonly NumberReport[]])[];
type NumberReport = Report & { readonly value: number; readonly asked: number };
type NamedNumber = [string, NumberParameter];

async function reportsOf(bench: Bench, trial: Trial): Promise<Report[] | undefined> {
  const reports: Report[] = [];
  const report = (figure: Report) => void reports.push(figure);
  try {
    await bench.callPrepare(trial, { ...bench.setting(trial), report });
  } catch {
    // What it refuses, or throws, is for other checks.
    return undefined;
  }
  return reports;
}

function hasNumbers(figure: Report): figure is NumberReport {
  return typeof figure.value === 'number' && typeof figure.asked === 'number';
}

function isNumber(entry: [string, Parameter]): entry is NamedNumber {
  return entry[1].kind === 'number';
}

/** @throws Failed where in every box a figure comes to the value asked, and in one of them another is said to be asked. */
function refuseSwapped(tried: Tried, name: string, { default: value, unit }: NumberParameter): void {
  if (tried.length < TRIALS.length) return;
  const isOfIt = (figure: NumberReport) => figure.unit === unit && figure.value === value;
  for (const [trial, reports] of tried) {
    const swapped = reports.find((figure) => isOfIt(figure) && figure.asked !== value);
    if (!swapped) continue;
    const alike = tried.map(([, others]) =>
      others.find((other) => other.name === swapped.name && isOfIt(other)),
    );
    if (alike.includes(undefined)) continue;
    throw new Failed(trial, {
      expected: `"${swapped.name}" to be reported as asked ${value} ${unit}, which is the value of ${name}`,
      received: `${value} ${unit} as what came, in every box, and ${trimNumber(swapped.asked, PLACES)} as what was asked`,
      remedy: `The two are swapped: "value" is what came, and "asked" is parameters.${name}.`,
    });
  }
}

/** @throws Failed where a figure has the name and unit of a parameter, and another number is said to be asked. */
function refuseOther(tried: Tried, name: string, { default: value, unit }: NumberParameter): void {
  for (const [trial, reports] of tried) {
    const other = reports.find(
      (figure) => figure.name === name && figure.unit === unit && figure.asked !== value,
    );
    if (!other) continue;
    throw new Failed(trial, {
      expected: `"${name}" to be reported as asked ${value} ${unit}, the value of the parameter of that name`,
      received: `${trimNumber(other.asked, PLACES)} as what was asked`,
      remedy: `Give parameters.${name} as "asked", or call the figure by another name.`,
    });
  }
}
