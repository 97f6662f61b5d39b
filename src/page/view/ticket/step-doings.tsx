import type { Work, WorkStep } from '../../words/work.ts';
import { usePage } from '../state/context.ts';
import { anotherThrow, stepChanged, stepMoved, stepTaken } from '../state/edit.ts';

interface Properties {
  readonly step: WorkStep;
  readonly index: number;
  readonly count: number;
  readonly isUnfolded: boolean;
}

/** What is done with a step as a whole. */
export function StepDoings({ step, index, count, isUnfolded }: Properties) {
  const { desk } = usePage();
  const { id, held } = step;
  const act = (edit: (work: Work) => Work) => () => desk.change(edit);
  return (
    <p class="doings">
      {isUnfolded && (
        <button type="button" class="small" onClick={act((work) => thrownAgain(work, step, index))}>
          another throw
        </button>
      )}
      <button
        type="button"
        class="small"
        aria-pressed={!!held}
        onClick={act((work) => stepChanged(work, id, { held: !held }))}
      >
        {held ? 'lay it again' : 'hold off'}
      </button>
      {index > 0 && (
        <button type="button" class="small" onClick={act((work) => stepMoved(work, id, -1))}>
          sooner
        </button>
      )}
      {index < count - 1 && (
        <button type="button" class="small" onClick={act((work) => stepMoved(work, id, 1))}>
          later
        </button>
      )}
      <button type="button" class="small" onClick={act((work) => stepTaken(work, id))}>
        take away
      </button>
    </p>
  );
}

/** The first step's throw is that of the whole recipe, unless it has one of its own. */
function thrownAgain(work: Work, step: WorkStep, index: number): Work {
  const seed = step.seed ?? (index === 0 ? work.laying.seed : '0');
  return stepChanged(work, step.id, { seed: anotherThrow(seed) });
}
