import { isReflected, parseLayout } from '../../../repeat/layout.ts';
import { usePage } from '../state/context.ts';
import { laid } from '../state/edit.ts';
import { ChoiceValue } from '../value/choice-value.tsx';

const WAYS = [
  { value: 'cloth', words: 'runs on over the whole cloth' },
  { value: 'artwork', words: 'is turned with the artwork' },
];

/** Whether textures are reflected with a reflected layout; for no other. */
export function Follow() {
  const { desk } = usePage();
  const { layout, laying } = desk.work.value;
  if (laying.steps.length === 0 || !isReflected(parseLayout(layout))) return null;
  return (
    <p>
      The texture{' '}
      <ChoiceValue
        name="how the texture lies in a reflected repeat"
        options={WAYS}
        value={laying.follow ?? 'cloth'}
        onValue={(follow) => desk.change((work) => laid(work, { follow: follow as 'cloth' | 'artwork' }))}
      />
      .
    </p>
  );
}
