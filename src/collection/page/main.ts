import './main.css';
import { boxCount } from '../../repeat/lattice.ts';
import { parseLayout } from '../../repeat/layout.ts';
import { Bare } from './bare.ts';
import { CardWall } from './card-wall.ts';
import type { PageData } from './data.ts';
import { element } from './element.ts';
import { Favourites } from './favourites.ts';
import { ListDialog } from './list-dialog.ts';
import { ScaleField } from './scale-field.ts';
import { passes } from './sieve.ts';
import { SieveForm } from './sieve-form.ts';
import { Tray } from './tray.ts';
import { Viewer } from './viewer.ts';
import { count, fullTitle } from './words.ts';

/** Of a card at first, px; near enough to reckon with before it is laid out. */
const CARD_SIDE = 240;
const REPEATS = 1.5;

start(JSON.parse(document.getElementById('data')!.textContent!));

function start(data: PageData): void {
  const favourites = new Favourites(data.key);
  let compared: readonly number[] = [];
  const shownCount = element('p', { role: 'status', class: 'facts' });
  const bare = new Bare();
  const viewer = new Viewer(data, bare, () => wall.visible.filter((index) => data.swatches[index].cloth));
  const list = new ListDialog(data);
  const chosen = () => data.swatches.filter(({ name }) => favourites.has(name));
  const wall = new CardWall(data, {
    look: (index) => void viewer.show([index]),
    favour: (index) => favourites.toggle(data.swatches[index].name),
    compare: (index) => {
      if (!data.swatches[index].cloth) return;
      const others = compared.filter((one) => one !== index);
      compared = others.length < compared.length ? others : [...others.slice(-1), index];
      mark();
    },
  });
  const form = new SieveForm(data, () => sieve());
  const tray = new Tray({
    list: () => void list.show(chosen()),
    clear: () => favourites.clear(),
    compare: () => void viewer.show(compared),
    release: () => {
      compared = [];
      mark();
    },
  });
  const scale = startScale(data);
  const scaleField = new ScaleField(scale, (next) => wall.painter.setScale(next));
  const looks = element('div', { class: 'looks' }, scaleField.root);
  if (data.originals.some(({ cloth }) => cloth)) looks.append(bare.button());

  function mark(): void {
    wall.mark(
      (index) => favourites.has(data.swatches[index].name),
      (index) => compared.includes(index),
    );
    tray.show({
      favourites: chosen().length,
      isKept: favourites.isKept,
      compared: compared.map((index) => fullTitle(data.swatches[index], data.axes)),
    });
  }

  function sieve(): void {
    const { sieve } = form;
    wall.sieve((index) => passes(data.swatches[index], sieve, favourites.has(data.swatches[index].name)));
    const shown = wall.visible.length;
    shownCount.textContent =
      shown === data.swatches.length
        ? `${count(shown, 'swatch', 'swatches')}, all shown`
        : `${shown} of ${count(data.swatches.length, 'swatch', 'swatches')} shown`;
  }

  bare.onChange(() => wall.bare(bare.isOn));
  addEventListener('keydown', (event) => throwByKey(event, bare));
  favourites.onChange(() => {
    mark();
    if (form.sieve.favouritesOnly) sieve();
  });
  document
    .getElementById('book')!
    .replaceChildren(
      element('header', { class: 'head' }, element('h1', {}, data.summary), shownCount, looks),
      form.root,
      wall.root,
      element('p', { class: 'hint' }, `${data.room} ${KEYS}`),
      tray.root,
      viewer.root,
      list.root,
    );
  sieve();
  mark();
  wall.painter.setScale(scale);
  addEventListener('resize', () => wall.painter.repaint());
}

/** So that the largest repeat stands one and a half times on a card. */
function startScale({ swatches }: PageData): number {
  const sides = swatches.flatMap(({ cloth }) => {
    if (!cloth) return [];
    const { across, down } = boxCount(parseLayout(cloth.layout));
    return [Math.max(cloth.widthMm * across, cloth.heightMm * down)];
  });
  return CARD_SIDE / REPEATS / Math.max(1, ...sides.slice(0, 1e5));
}

/** The key o, where no text is being written; the viewer hears it by itself. */
function throwByKey(
  { key, target, ctrlKey, metaKey, altKey, defaultPrevented }: KeyboardEvent,
  bare: Bare,
): void {
  if (key !== 'o' || ctrlKey || metaKey || altKey || defaultPrevented) return;
  if (!(target as Element).closest('dialog, textarea')) bare.toggle();
}

const KEYS =
  'Keys on a swatch: arrows go on, Enter looks closely, f marks a favourite, c takes it to compare; o shows the artwork without texture.';
