import type { OfferedEffect } from '../../words/begin.ts';
import type { WorkStep } from '../../words/work.ts';
import { usePage } from '../state/context.ts';
import { stepTaken } from '../state/edit.ts';
import { Presets } from './presets.tsx';
import { Reports } from './reports.tsx';
import { Said } from './said.tsx';
import { StepDoings } from './step-doings.tsx';
import { StepLaid } from './step-laid.tsx';
import { WhereControls } from './where-controls.tsx';

interface Properties {
  readonly step: WorkStep;
  readonly index: number;
  readonly count: number;
}

/** One step of the recipe, as a paragraph of the ticket; only one is unfolded at a time. */
export function Step({ step, index, count }: Properties) {
  const { desk } = usePage();
  const offered = desk.effects.value.get(step.effect);
  const title = `${index + 1}. ${step.effect.replaceAll('-', ' ')}`;
  return (
    <li class={step.held ? 'step held' : 'step'} aria-label={`${title}${step.held ? ', held off' : ''}`}>
      {offered ? <Told {...{ step, offered, index, count }} /> : <Missing step={step} />}
    </li>
  );
}

function Missing({ step }: { step: WorkStep }) {
  const { desk } = usePage();
  return (
    <p role="alert">
      {step.effect} is no effect that this program knows now; it is not laid.{' '}
      <button type="button" class="small" onClick={() => desk.change((work) => stepTaken(work, step.id))}>
        take it away
      </button>
    </p>
  );
}

function Told({ step, offered, index, count }: Properties & { offered: OfferedEffect }) {
  const { unfolded, atHand } = usePage();
  const isUnfolded = unfolded.value === step.id;
  return (
    <>
      <h3>
        <button
          type="button"
          id={`step ${step.id}`}
          aria-expanded={isUnfolded}
          onClick={() => {
            unfolded.value = isUnfolded ? undefined : step.id;
            atHand.value = undefined;
          }}
        >
          {index === 0 ? 'Lay ' : 'Then lay '}
          {step.effect.replaceAll('-', ' ')}
          {!isUnfolded && step.preset && `, ${step.preset.replaceAll('-', ' ')}`}
          {step.held && ' (held off)'}
        </button>
      </h3>
      {isUnfolded && (
        <>
          <Presets {...{ step, offered }} />
          <Said {...{ step, offered }} />
          <StepLaid {...{ step, offered }} />
          <WhereControls step={step} />
          <Reports step={step} />
        </>
      )}
      <StepDoings {...{ step, index, count, isUnfolded }} />
    </>
  );
}
