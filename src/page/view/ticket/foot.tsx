import { usePage } from '../state/context.ts';
import { anotherThrow, laid } from '../state/edit.ts';
import { pinned } from '../trials/pin.ts';

/** What is done with the whole. */
export function Foot() {
  const { desk, open } = usePage();
  const { past, future, work } = desk.story.value;
  return (
    <footer>
      <p class="doings">
        <button
          type="button"
          onClick={() =>
            desk.change((now) =>
              laid(now, {
                seed: anotherThrow(now.laying.seed),
                steps: now.laying.steps.map(({ seed: _, ...step }) => step),
              }),
            )
          }
        >
          Another throw of all
        </button>
        <button type="button" onClick={() => desk.change(pinned)} disabled={work.laying.steps.length === 0}>
          Pin as a trial
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
