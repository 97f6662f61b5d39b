import type { ReadonlySignal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import type { MaskRecipe } from '../../../host/plugins/recipe.ts';
import type { MainColour } from '../../../inspect/index.ts';
import type { Cloth } from '../cloth/cloth.ts';
import type { Artwork } from './artwork-colours.ts';
import { MASK_DEFAULTS, Touching } from './touching.ts';

export interface MaskControlsProps {
  readonly cloth: Cloth;
  /** None before a colour was taken. */
  readonly mask: ReadonlySignal<MaskRecipe | undefined>;
  /** Main colours of the tile, to choose from without the cloth. */
  readonly colours: readonly MainColour[];
  /** The bare artwork as the screen has it; none until it came. */
  readonly artwork: ReadonlySignal<Artwork | undefined>;
  /** `#rrggbb` of the artwork at a place, mm; read from `artwork` where absent. */
  readonly colourAt?: (x: number, y: number) => string | undefined;
  /** A colour was touched: to be added, or taken away where it is in the mask. */
  readonly onColour: (hex: string) => void;
  readonly onChange: (part: Pick<MaskRecipe, 'tolerance' | 'softness' | 'spare'>) => void;
}

/** Where a step lies by colours, as a sentence. As long as it stands on the page a touch of the cloth takes its colour. */
export function MaskControls(props: MaskControlsProps) {
  const { cloth, mask, colours, artwork, colourAt, onColour, onChange } = props;
  const touching = useMemo(
    () => new Touching(cloth, mask, artwork, colourAt, onColour),
    [cloth, mask, artwork, colourAt, onColour],
  );
  useEffect(() => touching.begin(), [touching]);
  const { isShown, hand } = touching;
  const taken = mask.value?.colours ?? [];
  const { tolerance, softness, spare } = { ...MASK_DEFAULTS, ...mask.value };
  const others = colours.filter(({ hex }) => !taken.includes(hex));
  return (
    <div class="colour-mask">
      <p>
        <select
          aria-label="Where it lies"
          value={spare ? 'spare' : 'only'}
          onChange={(event) => onChange({ spare: event.currentTarget.value === 'spare' })}
        >
          <option value="only">Only on</option>
          <option value="spare">Everywhere but on</option>
        </select>{' '}
        {taken.length === 0 ? 'a colour that you touch' : null}
        {taken.map((hex) => (
          <Swatch key={hex} hex={hex} isTaken words={wordsOf(hex, colours)} onColour={onColour} />
        ))}
        , up to{' '}
        <Figure
          label="How far off a colour may be, CIEDE2000"
          value={tolerance}
          take={(value) => onChange({ tolerance: value })}
        />{' '}
        off, fading over{' '}
        <Figure
          label="Over how much more it fades, CIEDE2000"
          value={softness}
          take={(value) => onChange({ softness: value })}
        />{' '}
        more.
      </p>
      {others.length > 0 && (
        <p>
          Or touch{' '}
          {others.map(({ hex }) => (
            <Swatch key={hex} hex={hex} isTaken={false} words={wordsOf(hex, colours)} onColour={onColour} />
          ))}
        </p>
      )}
      <p>
        <button type="button" onClick={() => (isShown.value = !isShown.value)}>
          {isShown.value ? 'Hide it' : 'Show it'}
        </button>
      </p>
      <p class="colour-mask-keys">
        Touch the cloth to take a colour or leave it out. By keys, on the cloth: arrows move a cross, with
        Shift a little; Enter touches.
      </p>
      <output aria-live="polite" class="colour-mask-said">
        {hand.said.value}
      </output>
    </div>
  );
}

interface SwatchProps {
  readonly hex: string;
  readonly isTaken: boolean;
  readonly words: string;
  readonly onColour: (hex: string) => void;
}

function Swatch({ hex, isTaken, words, onColour }: SwatchProps) {
  return (
    <button
      type="button"
      class="swatch"
      aria-pressed={isTaken}
      aria-label={words}
      onClick={() => onColour(hex)}
    >
      <span style={{ background: hex }} aria-hidden="true" />
      <span>{words}</span>
    </button>
  );
}

interface FigureProps {
  readonly label: string;
  readonly value: number;
  readonly take: (value: number) => void;
}

function Figure({ label, value, take }: FigureProps) {
  return (
    <input
      type="number"
      aria-label={label}
      min={0}
      max={100}
      step={0.5}
      value={value}
      onInput={(event) => {
        const typed = event.currentTarget.valueAsNumber;
        if (typed >= 0 && typed <= 100) take(typed);
      }}
    />
  );
}

/** `#f3ead8, 62 % of the tile` */
function wordsOf(hex: string, colours: readonly MainColour[]): string {
  const share = colours.find((colour) => colour.hex === hex)?.share;
  if (share === undefined) return hex;
  return `${hex}, ${share < 0.01 ? 'less than 1' : Math.round(share * 100)} % of the tile`;
}
