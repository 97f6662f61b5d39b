import { useState } from 'preact/hooks';
import type { BlendMode } from '../../../colour/blend.ts';
import { BLEND_MODES } from '../../../colour/blend.ts';
import type { OfferedEffect } from '../../words/begin.ts';
import type { WorkStep } from '../../words/work.ts';
import { usePage } from '../state/context.ts';
import { anotherThrow, stepChanged, stepMoved, stepTaken } from '../state/edit.ts';
import { SmallCloth } from '../trials/small-cloth.tsx';
import { ChoiceValue } from '../value/choice-value.tsx';
import { ColourValue } from '../value/colour-value.tsx';
import { NumberValue } from '../value/number-value.tsx';
import { linesOf } from './lines.ts';
import { Reports } from './reports.tsx';
import { Sentence } from './sentence.tsx';
import { Where, WhereControls } from './where.tsx';

const OPACITY = { unit: 'ratio', min: 0, max: 1 } as const;

interface Properties {
  readonly step: WorkStep;
  readonly index: number;
  readonly count: number;
}

/** One step of the recipe, as a paragraph of the ticket. */
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
  const { desk } = usePage();
  const [isWhole, showWhole] = useState(false);
  const { first, rest } = linesOf(offered.effect);
  const change = (edit: Partial<WorkStep>, joins?: string) =>
    desk.change((work) => stepChanged(work, step.id, edit), joins);
  return (
    <>
      <h3>
        {index === 0 ? 'Lay ' : 'Then lay '}
        {step.effect.replaceAll('-', ' ')}
        {step.held && ' (held off)'}
      </h3>
      <Presets {...{ step, offered }} />
      <p>
        {first.map((line, place) => (
          <Sentence key={place} {...{ line, step, offered }} />
        ))}
      </p>
      {rest.length > 0 && (
        <details open={isWhole} onToggle={(event) => showWhole(event.currentTarget.open)}>
          <summary>{isWhole ? 'fewer words' : `${rest.length} finer points`}</summary>
          {isWhole && (
            <ul class="rest">
              {rest.map((line, place) => (
                <li key={place}>
                  <Sentence {...{ line, step, offered }} />
                </li>
              ))}
            </ul>
          )}
        </details>
      )}
      <p>
        Laid on at{' '}
        <NumberValue
          name="strength"
          range={OPACITY}
          value={step.opacity ?? presetOf(step, offered)?.opacity ?? 1}
          onValue={(opacity) => change({ opacity }, `${step.id} opacity`)}
        />
        , by{' '}
        <ChoiceValue
          name="blend mode"
          options={BLEND_MODES.map((mode) => ({ value: mode, words: mode }))}
          value={step.blend ?? presetOf(step, offered)?.blend ?? offered.effect.blend ?? 'normal'}
          onValue={(blend) => change({ blend: blend as BlendMode })}
        />
        {offered.effect.planes.includes('load') && (
          <>
            , on paper of{' '}
            <ColourValue
              name="paper"
              value={step.paper ?? '#ffffff'}
              onValue={(paper) => change({ paper }, `${step.id} paper`)}
            />
          </>
        )}
        . <Where step={step} />
      </p>
      <WhereControls step={step} />
      <Reports step={step} />
      <p class="doings">
        <button type="button" class="small" onClick={() => throwAgain()}>
          another throw
        </button>
        <button
          type="button"
          class="small"
          aria-pressed={!!step.held}
          onClick={() => change({ held: !step.held })}
        >
          {step.held ? 'lay it again' : 'hold off'}
        </button>
        {index > 0 && (
          <button
            type="button"
            class="small"
            onClick={() => desk.change((work) => stepMoved(work, step.id, -1))}
          >
            sooner
          </button>
        )}
        {index < count - 1 && (
          <button
            type="button"
            class="small"
            onClick={() => desk.change((work) => stepMoved(work, step.id, 1))}
          >
            later
          </button>
        )}
        <button type="button" class="small" onClick={() => desk.change((work) => stepTaken(work, step.id))}>
          take away
        </button>
      </p>
    </>
  );

  /** The first step's throw is that of the whole recipe, unless it has one of its own. */
  function throwAgain(): void {
    desk.change((work) => {
      const { seed } = work.laying;
      return stepChanged(work, step.id, { seed: anotherThrow(step.seed ?? (index === 0 ? seed : '0')) });
    });
  }
}

function presetOf(step: WorkStep, { presets }: OfferedEffect) {
  return presets.find(({ name }) => name === step.preset);
}

/** The presets, to be chosen by looking. */
function Presets({ step, offered }: { step: WorkStep; offered: OfferedEffect }) {
  const { desk } = usePage();
  const [isOpen, open] = useState(false);
  if (offered.presets.length === 0) return null;
  const choices = [undefined, ...offered.presets.map(({ name }) => name)];
  const isOwn = Object.keys(step.parameters ?? {}).length > 0;
  const words = (name?: string) => name?.replaceAll('-', ' ') ?? 'as it comes';
  return (
    <div>
      <p>
        <button type="button" class="value" aria-expanded={isOpen} onClick={() => open(!isOpen)}>
          {words(step.preset)}
        </button>
        {isOwn && ', with changes of your own'}
      </p>
      {isOpen && (
        <ul class="swatches">
          {choices.map((preset) => (
            <li key={preset ?? ''}>
              <button
                type="button"
                aria-pressed={preset === step.preset && !isOwn}
                onClick={() =>
                  desk.change((work) =>
                    stepChanged(work, step.id, {
                      ...{ preset, parameters: undefined, blend: undefined, opacity: undefined },
                    }),
                  )
                }
              >
                <SmallCloth
                  side={84}
                  sideMm={60}
                  laying={{
                    steps: [
                      {
                        ...step,
                        preset,
                        parameters: undefined,
                        blend: undefined,
                        opacity: undefined,
                        held: false,
                      },
                    ],
                    seed: desk.work.value.laying.seed,
                  }}
                />
                <span>{words(preset)}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
