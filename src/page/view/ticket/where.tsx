import { useComputed } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import type { MaskRecipe } from '../../../host/plugins/recipe.ts';
import { OPENED, RESIST, type Stroke, type Work, type WorkStep } from '../../words/work.ts';
import { MaskControls } from '../mask/mask-controls.tsx';
import { ResistControls } from '../resist/resist-controls.tsx';
import '../resist/resist.css';
import { usePage } from '../state/context.ts';
import { freshId, stepChanged } from '../state/edit.ts';
import { ChoiceValue } from '../value/choice-value.tsx';

type Way = 'all' | 'colours' | 'resist' | 'painted' | 'picture';

const WAYS: readonly { readonly value: Way; readonly words: string }[] = [
  { value: 'all', words: 'over all of it' },
  { value: 'colours', words: 'by colours that I touch' },
  { value: 'resist', words: 'all around a painted resist' },
  { value: 'painted', words: 'only where I paint' },
  { value: 'picture', words: 'where a grey picture is white' },
];

/** Where a step lies: over all, by colours, by a painted resist, by a grey picture. */
export function Where({ step }: { step: WorkStep }) {
  const { desk, atHand } = usePage();
  const { mask } = step;
  const isAtHand = atHand.value === step.id;
  return (
    <>
      It lies{' '}
      <ChoiceValue
        name="where the step lies"
        options={WAYS}
        value={wayOf(mask)}
        onValue={(way) => take(way as Way)}
      />
      .{' '}
      {mask && !mask.picture?.startsWith(OPENED) && (
        <button
          type="button"
          class="small"
          aria-pressed={isAtHand}
          onClick={() => (atHand.value = isAtHand ? undefined : step.id)}
        >
          {isAtHand ? 'done' : mask.colours ? 'touch colours' : 'take the brush'}
        </button>
      )}
    </>
  );

  function take(way: Way): void {
    desk.change((work) => placed(work, step, way, desk.tile.value?.colours[0]?.hex));
    atHand.value = way === 'all' ? undefined : step.id;
  }
}

/** What shows under the sentence while a step's place is at hand. */
export function WhereControls({ step }: { step: WorkStep }) {
  const { atHand } = usePage();
  const { mask } = step;
  const place = useRef<HTMLDivElement>(null);
  const isAtHand = atHand.value === step.id && mask !== undefined;
  useEffect(() => {
    if (isAtHand) place.current?.scrollIntoView({ block: 'center' });
  }, [isAtHand]);
  return isAtHand && <div ref={place}>{controlsFor(step, mask)}</div>;
}

function controlsFor(step: WorkStep, mask: MaskRecipe) {
  if (mask.colours) return <ByColours step={step} />;
  if (mask.picture?.startsWith(RESIST)) return <ByResist name={mask.picture.slice(RESIST.length)} />;
  return <ByPicture step={step} />;
}

function ByColours({ step: { id } }: { step: WorkStep }) {
  const { desk, cloth, artwork } = usePage();
  const mask = useComputed(() => stepOf(desk.work.value, id)?.mask);
  // Another function would mean another hand.
  const { onColour, onChange } = useMemo(() => {
    const change = (edit: (mask: MaskRecipe) => MaskRecipe, joins?: string) =>
      desk.change((work) => {
        const now = stepOf(work, id)?.mask;
        return now ? stepChanged(work, id, { mask: edit(now) }) : work;
      }, joins);
    return {
      onColour: (hex: string) => change((now) => ({ ...now, colours: toggled(now.colours ?? [], hex) })),
      onChange: (part: Partial<MaskRecipe>) =>
        change((now) => ({ ...now, ...part }), `${id} ${Object.keys(part)}`),
    };
  }, [desk, id]);
  const colours = desk.tile.value?.colours ?? [];
  return <MaskControls key={id} {...{ cloth, mask, artwork, colours, onColour, onChange }} />;
}

/** The last colour stays: a mask of none lies nowhere. */
function toggled(colours: readonly string[], hex: string): string[] {
  const others = colours.filter((one) => one !== hex);
  if (others.length === colours.length) return [...colours, hex];
  return others.length > 0 ? others : [...colours];
}

function ByResist({ name }: { name: string }) {
  const { desk, cloth } = usePage();
  const resist = useComputed(() => desk.work.value.resists[name] ?? { strokes: [] });
  // Another function would mean another brush.
  const { onStroke, onClear } = useMemo(() => {
    const put = (strokes: readonly Stroke[]) =>
      desk.change((work) => ({ ...work, resists: { ...work.resists, [name]: { strokes } } }));
    return {
      onStroke: (stroke: Stroke) => put([...(desk.work.peek().resists[name]?.strokes ?? []), stroke]),
      onClear: () => put([]),
    };
  }, [desk, name]);
  return <ResistControls key={name} {...{ cloth, resist, onStroke, onClear }} />;
}

function ByPicture({ step }: { step: WorkStep }) {
  const { desk, api, atHand } = usePage();
  return (
    <p>
      <label>
        A grey picture the size of the tile:{' '}
        <input
          type="file"
          accept=".png,.jpg,.jpeg,.webp,.tif,.tiff"
          onChange={(event) => {
            const file = event.currentTarget.files?.[0];
            if (file) void open(file);
          }}
        />
      </label>
    </p>
  );

  async function open(file: File): Promise<void> {
    try {
      const { id } = await api.open(file.name, file);
      desk.trouble('mask');
      desk.change((work) => stepChanged(work, step.id, { mask: { picture: `${OPENED}${id}` } }));
      atHand.value = undefined;
    } catch (error) {
      desk.trouble('mask', (error as Error).message);
    }
  }
}

function wayOf(mask: MaskRecipe | undefined): Way {
  if (!mask) return 'all';
  if (mask.colours) return 'colours';
  if (!mask.picture?.startsWith(RESIST)) return 'picture';
  return mask.spare ? 'resist' : 'painted';
}

/** The same work with a step that lies another way; what was painted for it is kept. */
export function placed(work: Work, step: WorkStep, way: Way, ground = '#ffffff'): Work {
  switch (way) {
    case 'all':
      return stepChanged(work, step.id, { mask: undefined });
    case 'colours':
      return stepChanged(work, step.id, { mask: { colours: [ground] } });
    case 'picture':
      return stepChanged(work, step.id, { mask: { picture: OPENED } });
    default: {
      const now = step.mask?.picture;
      const name = now?.startsWith(RESIST) ? now.slice(RESIST.length) : freshId(work);
      const resists = { ...work.resists, [name]: work.resists[name] ?? { strokes: [] } };
      const mask = { picture: `${RESIST}${name}`, spare: way === 'resist' };
      return stepChanged({ ...work, resists }, step.id, { mask });
    }
  }
}

function stepOf(work: Work, id: string): WorkStep | undefined {
  return work.laying.steps.find((step) => step.id === id);
}
