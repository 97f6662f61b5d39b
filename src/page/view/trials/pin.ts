import type { Laying, Trial, Work, WorkStep } from '../../words/work.ts';
import { freshId, laid } from '../state/edit.ts';

/** The same work with what is laid now pinned as a trial. */
export function pinned(work: Work): Work {
  return hung(work, [{ laying: work.laying, name: trialName(work.laying) }]);
}

/** Several trials hung at once. */
export function hung(work: Work, more: readonly Omit<Trial, 'id'>[]): Work {
  const trials = [...work.trials];
  for (const trial of more) trials.push({ ...trial, id: freshId({ ...work, trials }) });
  return { ...work, trials };
}

export function letGo(work: Work, id: string): Work {
  return { ...work, trials: work.trials.filter((trial) => trial.id !== id) };
}

/** What is laid is what a trial says. */
export function takenUp(work: Work, { laying }: Trial): Work {
  return laid(work, laying);
}

/** `linen weave and salt bloom, throw 3`. */
export function trialName({ steps, seed }: Laying): string {
  const laidOnes = steps.filter(({ held }) => !held);
  const names = laidOnes.map(({ effect, preset }) => (preset ?? effect).replaceAll('-', ' '));
  const throws = [...new Set(laidOnes.map((step) => step.seed ?? seed))];
  return `${names.join(' and ') || 'nothing laid'}, throw ${throws.join(' and ') || seed}`;
}

/** How an effect is said. */
export function nameOf({ effect }: Pick<WorkStep, 'effect'>): string {
  return effect.replaceAll('-', ' ');
}

/** So many throws of one step, the present one first; the others stay as they are. */
export function throwsOf(work: Work, id: string, count: number): Omit<Trial, 'id'>[] {
  const { steps, seed } = work.laying;
  const thrown = steps.find((step) => step.id === id);
  if (!thrown) return [];
  const base = Number.parseInt(thrown.seed ?? seed, 10) || 0;
  return Array.from({ length: count }, (_, index) => {
    const own = index === 0 ? thrown.seed : String(base + index);
    const laying = {
      ...work.laying,
      steps: steps.map((step) => (step === thrown ? { ...step, seed: own } : step)),
    };
    return { laying, name: `throw ${index + 1}` };
  });
}

/** What is laid with one step in five strengths. */
export function strengthsOf(work: Work, id: string): Omit<Trial, 'id'>[] {
  const { steps } = work.laying;
  const strong = steps.find((step) => step.id === id);
  if (!strong) return [];
  return [0.2, 0.4, 0.6, 0.8, 1].map((opacity) => {
    const laying = {
      ...work.laying,
      steps: steps.map((step) => (step === strong ? { ...step, opacity } : step)),
    };
    return { laying, name: `${opacity * 100} % ${nameOf(strong)}` };
  });
}
