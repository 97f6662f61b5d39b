import type { Laying, Trial, Work } from '../../words/work.ts';
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

/** So many throws of what is laid, the present one first. */
export function throwsOf(work: Work, count: number): Omit<Trial, 'id'>[] {
  const base = Number.parseInt(work.laying.seed, 10) || 0;
  return Array.from({ length: count }, (_, index) => {
    const steps = work.laying.steps.map(({ seed: _seed, ...step }) => step);
    const laying = { ...work.laying, steps, seed: String(base + index) };
    return { laying, name: `throw ${laying.seed}` };
  });
}

/** What is laid in five strengths of its last step. */
export function strengthsOf(work: Work): Omit<Trial, 'id'>[] {
  const last = work.laying.steps.findLast(({ held }) => !held);
  if (!last) return [];
  return [0.2, 0.4, 0.6, 0.8, 1].map((opacity) => {
    const steps = work.laying.steps.map((step) => (step === last ? { ...step, opacity } : step));
    return {
      laying: { ...work.laying, steps },
      name: `${opacity * 100} % ${last.effect.replaceAll('-', ' ')}`,
    };
  });
}
