import { OPENED, type WorkStep } from '../../words/work.ts';
import { usePage } from '../state/context.ts';
import { ChoiceValue } from '../value/choice-value.tsx';
import { placed, type Way, wayOf } from './placed.ts';

const WAYS: readonly { readonly value: Way; readonly words: string }[] = [
  { value: 'all', words: 'over all of it' },
  { value: 'colours', words: 'only on colours that I touch' },
  { value: 'sparing', words: 'everywhere but on colours that I touch' },
  { value: 'resist', words: 'all around a painted resist' },
  { value: 'painted', words: 'only where I paint' },
  { value: 'picture', words: 'where a grey picture is white' },
];

/** Where a step lies, as a sentence: over all, by colours, by a painted resist, by a grey picture. */
export function Where({ step }: { step: WorkStep }) {
  const { desk, atHand } = usePage();
  const { id, mask } = step;
  const mine = atHand.value?.step === id ? atHand.value : undefined;
  const hasControls = mine !== undefined || (mask !== undefined && !mask.picture?.startsWith(OPENED));
  return (
    <>
      It lies{' '}
      <ChoiceValue
        name="where the step lies"
        options={WAYS}
        value={mask ? wayOf(mask) : (mine?.way ?? 'all')}
        onValue={(way) => take(way as Way)}
      />
      .{' '}
      {hasControls && (
        <button
          type="button"
          class="small"
          aria-pressed={mine !== undefined}
          onClick={() => (atHand.value = mine ? undefined : { step: id, way: wayOf(mask) })}
        >
          {mine ? 'done' : mask?.colours ? 'touch colours' : 'take the brush'}
        </button>
      )}
    </>
  );

  function take(way: Way): void {
    desk.change((work) => placed(work, step, way));
    atHand.value = way === 'all' ? undefined : { step: id, way };
  }
}
