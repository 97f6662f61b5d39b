import { useState } from 'preact/hooks';
import type { OfferedEffect } from '../../words/begin.ts';
import type { WorkStep } from '../../words/work.ts';
import { usePage } from '../state/context.ts';
import { stepChanged } from '../state/edit.ts';
import { onEscape } from '../trials/escape.ts';
import { SmallCloth } from '../trials/small-cloth.tsx';

/** The presets, to be chosen by looking. */
export function Presets({ step, offered }: { step: WorkStep; offered: OfferedEffect }) {
  const { desk } = usePage();
  const [isOpen, open] = useState(false);
  const { seed } = desk.work.value.laying;
  if (offered.presets.length === 0) return null;
  const choices = [undefined, ...offered.presets.map(({ name }) => name)];
  const isOwn = Object.keys(step.parameters ?? {}).length > 0;
  const words = (name?: string) => name?.replaceAll('-', ' ') ?? 'as it comes';
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Escape is heard for what lies within
    <div onKeyDown={onEscape(() => open(false))}>
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
                onClick={() => desk.change((work) => stepChanged(work, step.id, asPreset(preset)))}
              >
                <SmallCloth
                  side={84}
                  sideMm={60}
                  laying={{ steps: [{ ...step, ...asPreset(preset), held: false }], seed }}
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

/** A step as its preset has it: what was changed of it is given up. */
function asPreset(preset: string | undefined): Partial<WorkStep> {
  return { preset, parameters: undefined, blend: undefined, opacity: undefined };
}
