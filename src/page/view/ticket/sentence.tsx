import { humanise, type Sentence as Said } from '../../../effect/sentence.ts';
import type { OfferedEffect } from '../../words/begin.ts';
import type { WorkStep } from '../../words/work.ts';
import { usePage } from '../state/context.ts';
import { currentValue, valueSet } from '../state/edit.ts';
import { Value } from '../value/value.tsx';

interface Properties {
  readonly line: Said;
  readonly step: WorkStep;
  readonly offered: OfferedEffect;
}

/** A sentence of a step, with its values in their places. */
export function Sentence({ line, step, offered }: Properties) {
  const { desk } = usePage();
  return (
    <>
      {line.parts.map((part) => {
        if (typeof part === 'string') return part;
        const { parameter, on, off, words } = part;
        return (
          <Value
            key={parameter}
            {...{ on, off, words }}
            name={humanise(parameter)}
            parameter={offered.effect.parameters[parameter]}
            value={currentValue(step, offered, parameter)}
            onValue={(value) =>
              desk.change((work) => valueSet(work, step.id, parameter, value), `${step.id} ${parameter}`)
            }
          />
        );
      })}{' '}
    </>
  );
}
