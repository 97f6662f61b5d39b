import { useState } from 'preact/hooks';
import { usePage } from '../state/context.ts';
import { AddStep } from './add-step.tsx';
import { Follow } from './follow.tsx';
import { Foot } from './foot.tsx';
import { Head } from './head.tsx';
import { Light } from './light.tsx';
import { Step } from './step.tsx';

/** The ticket that hangs on the cloth: the recipe as text whose values are the controls. */
export function Ticket() {
  const { desk } = usePage();
  const { steps } = desk.work.value.laying;
  const [isFolded, fold] = useState(false);
  const [help, setHelp] = useState<string | undefined>(undefined);
  /** What a value is for is said at the foot, for fingers and keys as well: a title alone shows to a mouse that waits. */
  const hear = ({ target }: Event) =>
    setHelp((target as Element).closest('.value')?.getAttribute('title') ?? undefined);
  return (
    <section class={isFolded ? 'ticket folded' : 'ticket'} aria-label="The ticket: what is laid">
      <button type="button" class="eyelet" aria-expanded={!isFolded} onClick={() => fold(!isFolded)}>
        {isFolded ? 'unfold the ticket' : 'fold the ticket'}
      </button>
      <div class="paper" hidden={isFolded} onFocusCapture={hear} onPointerOver={hear}>
        <Head />
        <ol>
          {steps.map((step, index) => (
            <Step key={step.id} {...{ step, index }} count={steps.length} />
          ))}
        </ol>
        <AddStep key={steps.length === 0 ? 'first' : 'more'} />
        <Light />
        <Follow />
        <Foot help={help} />
      </div>
    </section>
  );
}
