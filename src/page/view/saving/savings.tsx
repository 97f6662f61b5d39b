import type { Saving } from '../../words/save.ts';
import { usePage } from '../state/context.ts';
import { beginSaving } from './begin-saving.ts';

/** What is being saved and what came of it; work goes on meanwhile. */
export function Savings() {
  const { desk } = usePage();
  return (
    <div role="status" aria-label="Savings">
      <ul class="savings">
        {desk.savings.value.map((saving) => (
          <Line key={saving.id} saving={saving} />
        ))}
      </ul>
    </div>
  );
}

function Line({ saving }: { saving: Saving }) {
  const { desk, api } = usePage();
  const { id, name, state, done, words, command } = saving;
  const order = desk.orders.get(id);
  const forget = () => (desk.savings.value = desk.savings.value.filter((one) => one.id !== id));
  return (
    <li class={state === 'failed' ? 'saving failed' : 'saving'}>
      {state === 'under way' ? (
        <>
          <label>
            Saving {name} <progress max={1} value={done} />
          </label>{' '}
          <button type="button" class="small" onClick={() => void api.stop(id)}>
            stop
          </button>
        </>
      ) : (
        <>
          <span>
            {heading(saving)} {state === 'would replace' ? '' : words.join(' ')}
          </span>{' '}
          {command && state === 'saved' && (
            <button type="button" class="small" onClick={() => void navigator.clipboard.writeText(command)}>
              copy the command
            </button>
          )}
          {state === 'would replace' && order && (
            <button
              type="button"
              class="small"
              onClick={() => {
                forget();
                void beginSaving({ ...order, overwrite: true }, desk, api);
              }}
            >
              replace it
            </button>
          )}{' '}
          <button type="button" class="small" aria-label={`good: put ${name} out of sight`} onClick={forget}>
            good
          </button>
        </>
      )}
    </li>
  );
}

function heading({ name, state }: Saving): string {
  switch (state) {
    case 'saved':
      return `Saved ${name}.`;
    case 'stopped':
      return `${name} was stopped; nothing was written.`;
    case 'would replace':
      return `${name} is there already; nothing was written. Save under another name, or`;
    default:
      return `${name} could not be saved.`;
  }
}
