import { useEffect, useRef, useState } from 'preact/hooks';
import { MM_PER_INCH, trimNumber } from '../../../repeat/length.ts';
import type { OpenedTile } from '../../words/begin.ts';
import type { Closing } from '../../words/news.ts';
import { Dialog } from '../dialog.tsx';
import { usePage } from '../state/context.ts';
import { laid } from '../state/edit.ts';
import { NumberValue } from '../value/number-value.tsx';
import { SwitchValue } from '../value/switch-value.tsx';
import { LayoutDrawing } from './layout-drawing.tsx';
import { LAYOUTS } from './layouts.ts';
import { MakeItClose } from './make-it-close.tsx';
import { PICTURE_FILES } from './picture-files.ts';

const SIDE = { unit: 'mm', min: 1, max: 10_000 } as const;
/** Where no file says its density. */
const USUAL_DPI = 300;

/** Asks for a picture, then how large it is and how it stands, and shows at once whether it closes so. */
export function PictureDialog({ dropped }: { dropped?: File }) {
  const { desk, api, open } = usePage();
  const [tile, setTile] = useState<OpenedTile | undefined>(undefined);
  const [trouble, setTrouble] = useState<string | undefined>(undefined);
  const [isReading, read] = useState(false);
  useEffect(() => {
    if (dropped) void take(dropped);
  }, [dropped]);
  return (
    <Dialog title="Open a picture" onClose={() => (open.value = undefined)}>
      {!tile && (
        <p>
          <label>
            A tile that stands in repeat (PNG, JPEG, WebP or TIFF), or drop it anywhere on the page:{' '}
            <input
              type="file"
              accept={PICTURE_FILES}
              onChange={(event) => {
                const file = event.currentTarget.files?.[0];
                if (file) void take(file);
              }}
            />
          </label>
        </p>
      )}
      <p role="status">{isReading && 'Reading the picture…'}</p>
      {trouble && <p role="alert">{trouble}</p>}
      {tile && (
        <Placing key={tile.id} tile={tile} onClosed={setTile} onDone={() => (open.value = undefined)} />
      )}
    </Dialog>
  );

  async function take(file: File): Promise<void> {
    setTrouble(undefined);
    read(true);
    try {
      const opened = await api.open(file.name, file);
      desk.show(opened);
      setTile(opened);
    } catch (error) {
      setTrouble((error as Error).message);
    } finally {
      read(false);
    }
  }
}

function Placing({
  tile,
  onClosed,
  onDone,
}: {
  tile: OpenedTile;
  onClosed: (tile: OpenedTile) => void;
  onDone: () => void;
}) {
  const { desk, api } = usePage();
  const stated = tile.size?.width;
  const [width, setWidth] = useState(stated ?? (tile.width / USUAL_DPI) * MM_PER_INCH);
  const [layout, setLayout] = useState(tile.layout ?? 'straight');
  const [closing, setClosing] = useState<Closing | undefined>(undefined);
  const height = (width * tile.height) / tile.width;
  const [isBare, lay] = useState(true);
  const hasSteps = desk.work.value.laying.steps.length > 0;
  const drop = useRef<HTMLInputElement>(null);
  useEffect(() => {
    let isWanted = true;
    setClosing(undefined);
    const later = setTimeout(() => {
      api
        .check({ tile: tile.id, layout, size: { width, height } })
        .then((answer) => isWanted && setClosing(answer))
        .catch((error) => isWanted && setClosing({ grade: 'look', words: [error.message], repeat: '' }));
    }, 200);
    return () => {
      isWanted = false;
      clearTimeout(later);
    };
  }, [layout, width]);
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        desk.change((work) => {
          const placed = { ...work, tile: tile.id, layout, size: { width, height } };
          return isBare ? laid(placed, { steps: [] }) : placed;
        });
        onDone();
      }}
    >
      <p>
        {tile.name}, {tile.width} by {tile.height} px. One tile is{' '}
        <NumberValue name="width of the tile" range={SIDE} value={width} onValue={setWidth} /> by{' '}
        {trimNumber(height, 1)} mm
        {stated === undefined
          ? ' (the file does not say; this is what 300 dpi makes of it).'
          : ', as the file says.'}
      </p>
      {tile.notes.length > 0 && <p class="quiet">{tile.notes.join(' ')}</p>}
      <fieldset>
        <legend>How does it stand?</legend>
        <ul class="layouts">
          {LAYOUTS.map(({ value, words }) => (
            <li key={value}>
              <label>
                <input
                  type="radio"
                  name="layout"
                  value={value}
                  checked={value === layout}
                  onChange={() => setLayout(value)}
                />
                <LayoutDrawing layout={value} />
                <span>{words}</span>
              </label>
            </li>
          ))}
        </ul>
        <p>
          <label>
            or any other drop or brick, as in drop:2/5:{' '}
            <input
              ref={drop}
              class="value field"
              size={9}
              placeholder="drop:2/5"
              onChange={(event) =>
                /^(drop|brick):\d+\/\d+$/.test(event.currentTarget.value) &&
                setLayout(event.currentTarget.value)
              }
            />
          </label>
        </p>
      </fieldset>
      <p role="status" class={closing && closing.grade !== 'closes' ? 'warning' : undefined}>
        {closing
          ? `${verdict(closing)} ${closing.grade === 'closes' ? '' : closing.words.join(' ')}`
          : 'Looking at its seams…'}{' '}
        {closing?.grade === 'open' && (
          <MakeItClose order={{ tile: tile.id, layout, size: { width, height } }} onClosed={onClosed} />
        )}
      </p>
      {hasSteps && (
        <p>
          It comes{' '}
          <SwitchValue
            name="what is laid on it"
            value={isBare}
            on="bare"
            off="with all that is laid now"
            onValue={lay}
          />
          .
        </p>
      )}
      <button type="submit" class="main">
        Put it on the cloth
      </button>
    </form>
  );
}

function verdict({ grade }: Closing): string {
  if (grade === 'closes') return 'It closes so.';
  return grade === 'open' ? 'It does not close so.' : 'It may not close so: look at its seams.';
}
