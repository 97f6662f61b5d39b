import { usePage } from '../state/context.ts';
import { allThrownAgain } from '../state/edit.ts';
import { pinned } from '../trials/pin.ts';

/** What is done with the whole. */
export function Foot({ help }: { help?: string }) {
  const { desk, open } = usePage();
  const { past, future, work } = desk.story.value;
  return (
    <footer>
      {/* A screen reader has it with the value itself. */}
      {help && (
        <p class="help" aria-hidden="true">
          {help}
        </p>
      )}
      <p class="doings">
        <button type="button" onClick={() => desk.change(allThrownAgain)}>
          Another throw of all
        </button>
        <button
          type="button"
          title="Pins what is laid now as a trial"
          onClick={() => desk.change(pinned)}
          disabled={work.laying.steps.length === 0}
        >
          Pin it
        </button>
        <button type="button" class="main" onClick={() => (open.value = 'save')}>
          Save…
        </button>
      </p>
      <p class="doings">
        <button type="button" class="small" disabled={past.length === 0} onClick={() => desk.undo()}>
          undo
        </button>
        <button type="button" class="small" disabled={future.length === 0} onClick={() => desk.redo()}>
          redo
        </button>
        <button type="button" class="small" onClick={() => (open.value = 'keys')}>
          keys
        </button>
      </p>
    </footer>
  );
}
