import type { AnyEffect } from '../effect/effect.ts';
import type { ParameterValue } from '../effect/parameter.ts';
import { humanise, sentencesOf } from '../effect/sentence.ts';
import { writtenValue } from '../effect/value.ts';
import { valueWords } from '../effect/value-words.ts';
import type { RenderStep } from '../render/step.ts';
import { trimNumber } from '../repeat/length.ts';
import type { StepFacts } from './facts.ts';

/** A step for those who read it: what it was set to, and that in the effect's own sentences. */
export function stepFacts(step: RenderStep, effect: Pick<AnyEffect, 'sentences' | 'parameters'>): StepFacts {
  const { version, preset, order, blend, opacity, paper } = step;
  return {
    ...{ effect: step.effect, version, preset, seed: order.seed, parameters: shownParameters(step) },
    ...{ blend, opacity, paper, mask: shownMask(step) },
    words: [...effectWords(step, effect), ...laidWords(step)],
  };
}

/** The heading of a step: `Linen weave, kitchen-apron`. */
export function stepTitle({ effect, preset }: Pick<StepFacts, 'effect' | 'preset'>): string {
  const words = humanise(effect).replaceAll('-', ' ');
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}${preset ? `, preset ${preset}` : ''}`;
}

function effectWords({ order }: RenderStep, effect: Pick<AnyEffect, 'sentences' | 'parameters'>): string[] {
  return sentencesOf(effect).map(({ parts, isRest }) => {
    const words = parts.map((part) => {
      if (typeof part === 'string') return part;
      const value = order.parameters[part.parameter] as ParameterValue;
      return valueWords(effect.parameters[part.parameter], value, part);
    });
    const text = words.join('').trim();
    return isRest ? `${text}.` : text;
  });
}

function laidWords({ blend, opacity, mask, order }: RenderStep): string[] {
  const how = [
    blend === 'normal' ? '' : `in blend mode ${blend}`,
    opacity === 1 ? '' : `at an opacity of ${trimNumber(100 * opacity, 1)} %`,
    mask ? maskWords(mask) : '',
  ].filter(Boolean);
  return [...(how.length > 0 ? [`Laid ${how.join(', ')}.`] : []), `Seed ${order.seed}.`];
}

function maskWords({ colours, picture, spare }: NonNullable<RenderStep['mask']>): string {
  const where = picture ? 'where a mask picture is white' : `on ${(colours ?? []).join(', ')}`;
  return spare ? `everywhere but ${where}` : where;
}

/** No path of the sender's disk goes to a stranger. */
function shownMask({ mask }: RenderStep): unknown {
  return mask?.picture ? { ...mask, picture: 'a mask picture' } : mask;
}

function shownParameters({ declares, order }: RenderStep): Record<string, unknown> {
  const entries = Object.entries(order.parameters).map(([name, value]) => [
    name,
    declares.pictures?.includes(name) ? lastPart(writtenValue(value as ParameterValue)) : value,
  ]);
  return Object.fromEntries(entries);
}

function lastPart(path: string): string {
  return path.split(/[\\/]/).at(-1) ?? path;
}
