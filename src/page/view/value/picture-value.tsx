import { useState } from 'preact/hooks';
import type { PictureParameter } from '../../../effect/parameter.ts';
import { isPictureValue, pictureName, readPictureValue, statedText } from '../../../effect/picture-value.ts';
import { OPENED, openedName } from '../../words/work.ts';
import { PICTURE_FILES } from '../open/picture-files.ts';
import { usePage } from '../state/context.ts';
import { ChoiceValue } from './choice-value.tsx';

interface Properties {
  readonly name: string;
  readonly parameter: PictureParameter;
  readonly value: string;
  readonly onValue: (value: string) => void;
}

/** No file is called so: it asks for one. */
const ANOTHER = '\0another';

/** A picture within a sentence, by the name of its file: one that is on the page, or another that is opened for it. */
export function PictureValue({ name, parameter, value, onValue }: Properties) {
  const { desk } = usePage();
  const [isAsking, ask] = useState(false);
  const { path } = readPictureValue(value);
  const usual = readPictureValue(parameter.default).path;
  const named = new Map([
    [path, pictureName(path)],
    [usual, pictureName(usual)],
    ...desk.tiles.value.map((tile) => [openedName(tile.id, tile.name), tile.name] as const),
    [ANOTHER, 'another picture…'],
  ]);
  const options = [...named].map(([option, words]) => ({ value: option, words }));
  return (
    <span class="picture">
      <ChoiceValue {...{ name, options }} help={parameter.help} value={path} onValue={take} />
      {path.startsWith(OPENED) && <Stated {...{ name, path, onValue }} stated={statedText(value)} />}
      {isAsking && <Another {...{ name }} onOpened={opened} />}
    </span>
  );

  function take(option: string): void {
    ask(option === ANOTHER);
    if (option === ANOTHER) return;
    onValue(option === usual ? parameter.default : option);
  }

  function opened(id: string, file: string): void {
    ask(false);
    onValue(openedName(id, file));
  }
}

/** The size of the whole picture, where its file says none or another one. */
function Stated({
  name,
  path,
  stated,
  onValue,
}: Pick<Properties, 'name' | 'onValue'> & { readonly path: string; readonly stated: string }) {
  const [written, write] = useState<string | undefined>(undefined);
  const shown = written ?? stated;
  const fits = isStated(path, shown);
  return (
    <>
      {' at '}
      <input
        class="value field"
        aria-label={`${name}: the size of the whole picture, such as 100x80mm, or its density, such as 300dpi; as its file says where empty`}
        aria-invalid={!fits}
        placeholder="its own size"
        size={Math.max(11, shown.length)}
        value={shown}
        onInput={(event) => {
          const next = event.currentTarget.value;
          write(next);
          if (isStated(path, next)) onValue(next.trim() === '' ? path : `${path}@${next.trim()}`);
        }}
        onBlur={() => write(undefined)}
        onKeyDown={(event) => event.stopPropagation()}
      />
      {!fits && <span role="alert"> expects a size such as 100x80mm or 300dpi</span>}
    </>
  );
}

function isStated(path: string, text: string): boolean {
  if (text.trim() === '') return true;
  const value = `${path}@${text.trim()}`;
  return isPictureValue(value) && readPictureValue(value).path === path;
}

function Another({
  name,
  onOpened,
}: {
  readonly name: string;
  readonly onOpened: (id: string, file: string) => void;
}) {
  const { desk, api } = usePage();
  return (
    <input
      type="file"
      aria-label={`${name}: a picture of yours`}
      accept={PICTURE_FILES}
      onChange={(event) => {
        const file = event.currentTarget.files?.[0];
        if (file) void open(file);
      }}
    />
  );

  async function open(file: File): Promise<void> {
    try {
      const { id } = await api.open(file.name, file);
      desk.trouble('picture');
      onOpened(id, file.name);
    } catch (error) {
      desk.trouble('picture', (error as Error).message);
    }
  }
}
