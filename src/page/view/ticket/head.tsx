import { trimNumber } from '../../../repeat/length.ts';
import type { KeptWork, OpenedTile } from '../../words/begin.ts';
import { LAYOUTS, layoutWords } from '../open/layouts.ts';
import { MakeItClose } from '../open/make-it-close.tsx';
import { usePage } from '../state/context.ts';
import { ChoiceValue } from '../value/choice-value.tsx';
import { ColourValue } from '../value/colour-value.tsx';
import { NumberValue } from '../value/number-value.tsx';

const SIDE = { unit: 'mm', min: 1, max: 10_000 } as const;

/** What the texture is laid over, and how that stands in repeat. */
export function Head() {
  const { desk, open, api } = usePage();
  const { size, layout, ground } = desk.work.value;
  const tile = desk.tile.value;
  const known = LAYOUTS.some(({ value }) => value === layout);
  const choices = known ? LAYOUTS : [...LAYOUTS, { value: layout, words: layoutWords(layout) }];
  return (
    <header>
      <h1>{tile?.name ?? 'A texture alone'}</h1>
      <p>
        {tile ? 'One tile is ' : 'On a ground of '}
        {!tile && (
          <>
            <ColourValue
              name="ground"
              value={ground}
              onValue={(next) => desk.change((work) => ({ ...work, ground: next }), 'ground')}
            />
            , a tile of{' '}
          </>
        )}
        <NumberValue
          name="width of the tile"
          range={SIDE}
          value={size.width}
          onValue={(width) => resize(width, tile ? (width * tile.height) / tile.width : size.height)}
        />{' '}
        by{' '}
        {tile ? (
          `${trimNumber(size.height, 1)} mm`
        ) : (
          <NumberValue
            name="height of the tile"
            range={SIDE}
            value={size.height}
            onValue={(height) => resize(size.width, height)}
          />
        )}
        , and stands in{' '}
        <ChoiceValue
          name="layout"
          options={choices}
          value={layout}
          onValue={(next) => desk.change((work) => ({ ...work, layout: next }))}
        />
        . <Closes />
      </p>
      <p class="doings">
        <OtherDesigns />
        <button type="button" class="small" onClick={() => (open.value = 'picture')}>
          open a picture
        </button>
        {desk.begin.collections.map((name) => (
          <button key={name} type="button" class="small" onClick={() => void openCollection(name)}>
            the swatches of {name}
          </button>
        ))}
      </p>
    </header>
  );

  async function openCollection(name: string): Promise<void> {
    // Opened at once: a browser lets a page open another only while a press is fresh.
    const other = window.open('about:blank');
    try {
      const { address } = await api.collection(name);
      if (other) other.location.href = address;
    } catch (error) {
      other?.close();
      desk.trouble('collection', (error as Error).message);
    }
  }

  function resize(width: number, height: number): void {
    desk.change((work) => ({ ...work, size: { width, height } }), 'size');
  }
}

/** The verdict of the seam check on the artwork, as soon as it is known. */
function Closes() {
  const { closing, desk } = usePage();
  const { grade, words } = closing.value ?? {};
  const { tile, layout, size } = desk.work.value;
  if (grade === undefined) return <span role="status" />;
  if (grade === 'closes') return <span role="status">It closes.</span>;
  return (
    <span role="status" class="warning" title={words?.join(' ')}>
      {grade === 'open' ? 'The tile itself does not close so.' : 'Look at its seams.'}{' '}
      {grade === 'open' && tile !== undefined && (
        <MakeItClose order={{ tile, layout, size }} onClosed={put} />
      )}
    </span>
  );

  function put(closed: OpenedTile): void {
    desk.change((work) => ({ ...work, tile: closed.id, size: closed.size ?? work.size }));
  }
}

/** All designs that are open. */
function OtherDesigns() {
  const { desk } = usePage();
  const { works } = desk.begin;
  if (works.length < 2) return null;
  const nameOf = ({ work }: KeptWork) =>
    desk.tiles.value.find(({ id }) => id === work.tile)?.name ?? 'a texture alone';
  return (
    <ChoiceValue
      name="design"
      options={works.map((kept) => ({ value: kept.id, words: nameOf(kept) }))}
      value={desk.id.value}
      onValue={(id) => desk.takeUp(works.find((kept) => kept.id === id)!)}
    />
  );
}
