import { useState } from 'preact/hooks';
import type { Size } from '../../../repeat/length.ts';
import type { Trial } from '../../words/work.ts';
import { usePage } from '../state/context.ts';
import { useFold } from './fold.ts';
import { hung, letGo, nameOf, strengthsOf, takenUp, throwsOf } from './pin.ts';
import { SmallCloth } from './small-cloth.tsx';

/** The pinned trials, as small cloths hung on a line over the large one. */
export function TrialLine() {
  const { desk, unfolded } = usePage();
  const { trials, laying } = desk.work.value;
  const laidOnes = laying.steps.filter(({ held }) => !held);
  const thrown = laidOnes.find(({ id }) => id === unfolded.value) ?? laidOnes.at(-1);
  const fold = useFold();
  return (
    <section class="line" aria-label="Trials">
      <ul>
        {trials.map((trial) => (
          <Hung key={trial.id} trial={trial} isFolded={fold.folded === trial.id} onFold={fold.toggle} />
        ))}
      </ul>
      {thrown && (
        <p class="doings">
          <button
            type="button"
            class="small on-cloth"
            onClick={() => desk.change((work) => hung(work, throwsOf(work, thrown.id, 6)))}
          >
            hang six throws of {nameOf(thrown)}
          </button>
          <button
            type="button"
            class="small on-cloth"
            onClick={() => desk.change((work) => hung(work, strengthsOf(work, thrown.id)))}
          >
            five strengths
          </button>
          {trials.length > 1 && (
            <button
              type="button"
              class="small on-cloth"
              onClick={() => desk.change((work) => ({ ...work, trials: [] }))}
            >
              take all down
            </button>
          )}
        </p>
      )}
    </section>
  );
}

function Hung({
  trial,
  isFolded,
  onFold,
}: {
  trial: Trial;
  isFolded: boolean;
  onFold: (trial: Trial) => void;
}) {
  const { desk } = usePage();
  const isLaid = JSON.stringify(desk.work.value.laying) === JSON.stringify(trial.laying);
  const [isNaming, name] = useState(false);
  return (
    <li class={isLaid ? 'hung laid' : 'hung'}>
      <button
        type="button"
        class="cloth-button"
        aria-label={`Lay ${trial.name}`}
        aria-pressed={isLaid}
        onClick={() => desk.change((work) => takenUp(work, trial))}
      >
        <SmallCloth side={110} sideMm={nearOf(desk.work.value.size)} laying={trial.laying} />
      </button>
      {isNaming ? (
        <input
          class="value field"
          aria-label="Name of the trial"
          defaultValue={trial.name}
          ref={(field) => field?.focus()}
          onKeyDown={(event) => {
            event.stopPropagation();
            if (event.key === 'Enter' || event.key === 'Escape') event.currentTarget.blur();
          }}
          onBlur={(event) => {
            const next = event.currentTarget.value.trim();
            name(false);
            if (next && next !== trial.name)
              desk.change((work) => ({
                ...work,
                trials: work.trials.map((one) => (one.id === trial.id ? { ...one, name: next } : one)),
              }));
          }}
        />
      ) : (
        <button type="button" class="name" aria-label={`Name: ${trial.name}`} onClick={() => name(true)}>
          {trial.name}
        </button>
      )}
      <span class="doings">
        <button
          type="button"
          class="small"
          aria-pressed={isFolded}
          aria-label={`fold over: ${trial.name}`}
          onClick={() => onFold(trial)}
        >
          fold over
        </button>
        <button
          type="button"
          class="small"
          aria-label={`take down: ${trial.name}`}
          onClick={() => desk.change((work) => letGo(work, trial.id))}
        >
          take down
        </button>
      </span>
    </li>
  );
}

/** Near enough to see what differs, far enough to see how it lies. */
function nearOf({ width, height }: Size): number {
  return Math.min(120, Math.max(width, height));
}
