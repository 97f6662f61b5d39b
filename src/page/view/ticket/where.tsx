import { useComputed } from '@preact/signals';
import type { MaskRecipe } from '../../../host/plugins/recipe.ts';
import { OPENED, RESIST, type Work, type WorkStep } from '../../words/work.ts';
import { MaskControls } from '../mask/mask-controls.tsx';
import { ResistControls } from '../resist/resist-controls.tsx';
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
        name="where it lies"
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
  if (atHand.value !== step.id || !mask) return null;
  if (mask.colours) return <ByColours step={step} />;
  if (mask.picture?.startsWith(RESIST))
    return <ByResist step={step} name={mask.picture.slice(RESIST.length)} />;
  return <ByPicture step={step} />;
}

function ByColours({ step }: { step: WorkStep }) {
  const { desk, cloth, artwork } = usePage();
  const mask = useComputed(() => stepOf(desk.work.value, step.id)?.mask);
  const change = (edit: (mask: MaskRecipe) => MaskRecipe, joins?: string) =>
    desk.change((work) => {
      const now = stepOf(work, step.id)?.mask;
      return now ? stepChanged(work, step.id, { mask: edit(now) }) : work;
    }, joins);
  return (
    <MaskControls
      {...{ cloth, mask, artwork }}
      colours={desk.tile.value?.colours ?? []}
      onColour={(hex) => change((now) => ({ ...now, colours: toggled(now.colours ?? [], hex) }))}
      onChange={(part) => change((now) => ({ ...now, ...part }), `${step.id} ${Object.keys(part)}`)}
    />
  );
}

/** The last colour stays: a mask of none lies nowhere. */
function toggled(colours: readonly string[], hex: string): string[] {
  const others = colours.filter((one) => one !== hex);
  if (others.length === colours.length) return [...colours, hex];
  return others.length > 0 ? others : [...colours];
}

function ByResist({ step, name }: { step: WorkStep; name: string }) {
  const { desk, cloth } = usePage();
  const resist = useComputed(() => desk.work.value.resists[name] ?? { strokes: [] });
  const put = (strokes: typeof resist.value.strokes) =>
    desk.change((work) => ({ ...work, resists: { ...work.resists, [name]: { strokes } } }));
  return (
    <ResistControls
      key={step.id}
      {...{ cloth, resist }}
      onStroke={(stroke) => put([...(desk.work.peek().resists[name]?.strokes ?? []), stroke])}
      onClear={() => put([])}
    />
  );
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
