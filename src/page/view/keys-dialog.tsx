import { Dialog } from './dialog.tsx';
import { usePage } from './state/context.ts';

const KEYS: readonly (readonly [string, string])[] = [
  ['Tab', 'from value to value along the ticket'],
  ['arrows on a value', 'a step more or less; with Shift ten steps'],
  ['Enter on a value', 'write it, with its unit'],
  ['arrows on the cloth', 'move it; + and - come nearer and go further off; 0 shows the whole repeat'],
  ['Ctrl Z, Ctrl Shift Z', 'undo, redo'],
  ['t', 'another throw of all'],
  ['p', 'pin what is laid as a trial'],
  ['o (held down)', 'the artwork without texture'],
];

export function KeysDialog() {
  const { open } = usePage();
  return (
    <Dialog title="Keys" onClose={() => (open.value = undefined)}>
      <dl>
        {KEYS.map(([key, words]) => (
          <div key={key}>
            <dt>{key}</dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
    </Dialog>
  );
}
