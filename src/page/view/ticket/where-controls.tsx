import { useComputed } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import type { MaskRecipe } from '../../../host/plugins/recipe.ts';
import { OPENED, RESIST, type Stroke, type Work, type WorkStep } from '../../words/work.ts';
import { MaskControls } from '../mask/mask-controls.tsx';
import { PICTURE_FILES } from '../open/picture-files.ts';
import { ResistControls } from '../resist/resist-controls.tsx';
import '../resist/resist.css';
import { usePage } from '../state/context.ts';
import { stepChanged } from '../state/edit.ts';
import { toggled } from './placed.ts';

/** What shows under the sentence while a step's place is at hand. */
export function WhereControls({ step }: { step: WorkStep }) {
  const { atHand } = usePage();
  const place = useRef<HTMLDivElement>(null);
  const mine = atHand.value?.step === step.id ? atHand.value : undefined;
  const isAtHand = mine !== undefined;
  useEffect(() => {
    if (isAtHand) place.current?.scrollIntoView({ block: 'center' });
  }, [isAtHand]);
  const picture = step.mask?.picture;
  if (!mine) return null;
  return (
    <div ref={place}>
      {(mine.way === 'colours' || mine.way === 'sparing') && <ByColours step={step} />}
      {picture?.startsWith(RESIST) && <ByResist name={picture.slice(RESIST.length)} />}
      {mine.way === 'picture' && <ByPicture step={step} />}
    </div>
  );
}

function ByColours({ step: { id } }: { step: WorkStep }) {
  const { desk, cloth, artwork, atHand } = usePage();
  // Before a colour was touched there is no mask, but whether it will spare is said.
  const mask = useComputed(
    () => stepOf(desk.work.value, id)?.mask ?? { spare: atHand.value?.way === 'sparing' },
  );
  // Another function would mean another hand.
  const { onColour, onChange } = useMemo(() => {
    const change = (edit: (mask: MaskRecipe | undefined) => MaskRecipe | undefined, joins?: string) =>
      desk.change((work) => stepChanged(work, id, { mask: edit(stepOf(work, id)?.mask) }), joins);
    return {
      onColour: (hex: string) => change((now) => toggled(now, hex, atHand.peek()?.way === 'sparing')),
      onChange: (part: Partial<MaskRecipe>) => {
        if (part.spare !== undefined) atHand.value = { step: id, way: part.spare ? 'sparing' : 'colours' };
        change((now) => now && { ...now, ...part }, `${id} ${Object.keys(part)}`);
      },
    };
  }, [desk, id]);
  const colours = desk.tile.value?.colours ?? [];
  return <MaskControls key={id} {...{ cloth, mask, artwork, colours, onColour, onChange }} />;
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
          accept={PICTURE_FILES}
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

function stepOf(work: Work, id: string): WorkStep | undefined {
  return work.laying.steps.find((step) => step.id === id);
}
