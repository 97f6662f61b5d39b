import './fonts.css';
import { render } from 'preact';
import type { Begin } from '../words/begin.ts';

/** Stands in until the page itself is here: says what was opened. */
function Opened({ begin }: { readonly begin: Begin }) {
  return (
    <ul>
      {begin.tiles.map(({ id, name }) => (
        <li key={id}>{name}</li>
      ))}
    </ul>
  );
}

const key = new URLSearchParams(location.hash.slice(1)).get('key') ?? '';
void fetch('/api/begin', { method: 'POST', headers: { Authorization: `Bearer ${key}` } })
  .then((answer): Promise<Begin> => answer.json())
  .then((begin) => render(<Opened begin={begin} />, document.getElementById('page')!));
