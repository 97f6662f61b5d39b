import { useEffect, useState } from 'preact/hooks';
import { fitGrid } from '../../../repeat/grid.ts';
import { parseLayout } from '../../../repeat/layout.ts';
import { MM_PER_INCH } from '../../../repeat/length.ts';
import type { OpenedTile } from '../../words/begin.ts';
import type { SaveOrder } from '../../words/save.ts';
import type { Work } from '../../words/work.ts';
import { Dialog } from '../dialog.tsx';
import { usePage } from '../state/context.ts';
import { ChoiceValue } from '../value/choice-value.tsx';
import { NumberValue } from '../value/number-value.tsx';
import { beginSaving } from './begin-saving.ts';

const WHAT: readonly { readonly value: SaveOrder['what']; readonly words: string }[] = [
  { value: 'tile', words: 'the finished tile' },
  { value: 'texture', words: 'the texture alone, to be laid by hand' },
  { value: 'recipe', words: 'the recipe' },
  { value: 'collection', words: 'the pinned trials, into a collection' },
];
const DPI = { unit: 'count', min: 20, max: 1200 } as const;
/** What a tile is saved at, unless its own is enough for print. */
const PRINT_DPI = 300;
const ENOUGH_DPI = 200;
const ENDINGS = ['.png', '.tif'] as const;

/** Asks what is to be saved, and shows the command that makes the same. */
export function SaveDialog() {
  const { desk, api, open } = usePage();
  const work = desk.work.value;
  const tile = desk.tile.value;
  const own = tile ? (tile.width / work.size.width) * MM_PER_INCH : 300;
  const [what, setWhat] = useState<SaveOrder['what']>('tile');
  const [dpi, setDpi] = useState(Math.round(own >= ENOUGH_DPI ? own : PRINT_DPI));
  const [ending, setEnding] = useState<string>('.png');
  const [name, setName] = useState(() =>
    plainName(
      tile?.name,
      work.laying.steps.map(({ effect }) => effect),
    ),
  );
  const [command, setCommand] = useState('');
  const isPicture = what === 'tile' || what === 'texture';
  const isOwn = tile !== undefined && Math.abs(dpi - own) < 0.5 && what === 'tile';
  const density = isPicture && !isOwn ? dpi / MM_PER_INCH : undefined;
  const file = name + (isPicture ? ending : '.json');
  const key = JSON.stringify([work.laying, work.layout, work.size, density, what, file]);
  useEffect(() => {
    let isWanted = true;
    setCommand('');
    if (what !== 'tile') return;
    api
      .command({ work, laying: work.laying, density })
      .then((answer) => isWanted && setCommand(answer.command))
      .catch((error) => isWanted && setCommand(error.message));
    return () => {
      isWanted = false;
    };
  }, [key]);
  const choices = WHAT.filter(({ value }) => value !== 'collection' || work.trials.length > 0);
  return (
    <Dialog title="Save" onClose={() => (open.value = undefined)}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          const trials = what === 'collection' ? work.trials.map(({ id }) => id) : undefined;
          void beginSaving({ what, name: file, work, trials, density, fit: true }, desk, api);
          open.value = undefined;
        }}
      >
        <p>
          Save{' '}
          <ChoiceValue
            name="what"
            options={choices}
            value={what}
            onValue={(next) => setWhat(next as SaveOrder['what'])}
          />
          {isPicture && (
            <>
              {' '}
              at <NumberValue name="density, dpi" range={DPI} value={dpi} onValue={setDpi} /> dpi
              {isOwn && ', its own density'} ({pixelWords(work, dpi, isOwn ? tile : undefined)}), as{' '}
              <ChoiceValue
                name="kind of file"
                options={ENDINGS.map((value) => ({ value, words: value === '.png' ? 'PNG' : 'TIFF' }))}
                value={ending}
                onValue={setEnding}
              />
            </>
          )}
          .
        </p>
        <p>
          <label>
            Name it{' '}
            <input
              class="value field"
              required
              size={Math.max(12, name.length)}
              value={name}
              pattern="[^\/\\]+"
              onInput={(event) => setName(event.currentTarget.value)}
            />
          </label>
          {isPicture ? ending : '.json'}, in {desk.begin.folder}.
        </p>
        {command && (
          <details>
            <summary>the same from a terminal</summary>
            {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a long line is scrolled by keys. */}
            <code tabIndex={0}>{command}</code>
          </details>
        )}
        <button type="submit" class="main">
          Save
        </button>
      </form>
    </Dialog>
  );
}

function plainName(tile: string | undefined, effects: readonly string[]): string {
  const stem = tile?.replace(/\.[^.]*$/, '') ?? 'texture';
  return [stem, ...new Set(effects)].join('-').slice(0, 80);
}

/** The pixels that will come: those that fit the layout at about that density. */
function pixelWords({ layout, size }: Work, dpi: number, own?: OpenedTile): string {
  const grid = fitGrid({ layout: parseLayout(layout), ...size }, dpi / MM_PER_INCH);
  const { width, height } = own ?? { width: grid.tileWidth, height: grid.tileHeight };
  return `${width} by ${height} px`;
}
