import { BLEND_MODES, type BlendMode } from '../../../colour/blend.ts';
import { WHITE_PAPER } from '../../../render/step.ts';
import type { OfferedEffect } from '../../words/begin.ts';
import type { WorkStep } from '../../words/work.ts';
import { usePage } from '../state/context.ts';
import { stepChanged } from '../state/edit.ts';
import { ChoiceValue } from '../value/choice-value.tsx';
import { ColourValue } from '../value/colour-value.tsx';
import { NumberValue } from '../value/number-value.tsx';
import { Where } from './where.tsx';

const OPACITY = { unit: 'ratio', min: 0, max: 1 } as const;
const MODES = BLEND_MODES.map((mode) => ({ value: mode, words: mode }));

/** How a step is laid: how strongly, by which blend mode, on which paper, and where. */
export function StepLaid({ step, offered }: { step: WorkStep; offered: OfferedEffect }) {
  const { desk } = usePage();
  const { effect, presets } = offered;
  const preset = presets.find(({ name }) => name === step.preset);
  const change = (edit: Partial<WorkStep>, joins?: string) =>
    desk.change((work) => stepChanged(work, step.id, edit), joins);
  return (
    <p>
      Laid on at{' '}
      <NumberValue
        name="strength"
        range={OPACITY}
        value={step.opacity ?? preset?.opacity ?? 1}
        onValue={(opacity) => change({ opacity }, `${step.id} opacity`)}
      />
      , by{' '}
      <ChoiceValue
        name="blend mode"
        options={MODES}
        value={step.blend ?? preset?.blend ?? effect.blend ?? 'normal'}
        onValue={(blend) => change({ blend: blend as BlendMode })}
      />
      {effect.planes.includes('load') && (
        <>
          , on paper of{' '}
          <ColourValue
            name="paper"
            value={step.paper ?? WHITE_PAPER}
            onValue={(paper) => change({ paper }, `${step.id} paper`)}
          />
        </>
      )}
      . <Where step={step} />
    </p>
  );
}
