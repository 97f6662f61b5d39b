import type { PageSwatch } from './data.ts';
import { element } from './element.ts';

type Row = readonly [label: string, value: string];

/** All that is known of a swatch, row by row; what another has otherwise is marked. */
export function settingsList(swatch: PageSwatch, other?: PageSwatch): HTMLElement {
  const list = element('div', { class: 'settings' });
  const others = new Map(other ? blocksOf(other).map(({ title, rows }) => [title, new Map(rows)]) : []);
  for (const { title, rows } of blocksOf(swatch)) {
    const known = others.get(title);
    if (title !== '') list.append(element('h4', {}, title));
    list.append(rowsOf(rows, (label, value) => other !== undefined && known?.get(label) !== value));
  }
  return list;
}

function rowsOf(rows: readonly Row[], differs: (label: string, value: string) => boolean): HTMLElement {
  const list = element('dl');
  for (const [label, value] of rows) {
    const shown = differs(label, value) ? element('mark', {}, value) : value;
    list.append(element('div', {}, element('dt', {}, label), element('dd', {}, shown)));
  }
  return list;
}

function blocksOf({ labels, render, seams, notes, name, address, settings }: PageSwatch) {
  const rows: Row[] = Object.entries(labels);
  if (render) rows.push(['render', render]);
  if (seams) rows.push(['seams', seams.summary]);
  for (const note of notes) rows.push(['note', note]);
  rows.push(['name', name], ['address', address.slice(0, 8)]);
  return [{ title: '', rows }, ...settings];
}
