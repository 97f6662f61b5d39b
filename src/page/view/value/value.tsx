import type { Parameter, ParameterValue } from '../../../effect/parameter.ts';
import { ChoiceValue } from './choice-value.tsx';
import { ColourValue } from './colour-value.tsx';
import { ListValue } from './list-value.tsx';
import { NumberValue } from './number-value.tsx';
import { PictureValue } from './picture-value.tsx';
import { SwitchValue } from './switch-value.tsx';
import { TextValue } from './text-value.tsx';

interface Properties {
  /** As it is read out. */
  readonly name: string;
  readonly parameter: Parameter;
  readonly value: ParameterValue;
  /** How a switch reads. */
  readonly on?: string;
  readonly off?: string;
  /** How the options of a choice read; as they are named where absent. */
  readonly words?: Readonly<Record<string, string>>;
  readonly onValue: (value: ParameterValue) => void;
}

/** A parameter of any kind as it stands in a sentence. */
export function Value({ name, parameter, value, on = 'yes', off = 'no', words, onValue }: Properties) {
  const { help } = parameter;
  switch (parameter.kind) {
    case 'number':
      return <NumberValue {...{ name, help, onValue }} range={parameter} value={value as number} />;
    case 'choice': {
      const options = parameter.options.map((option) => ({
        value: option,
        words: words?.[option] ?? option.replaceAll('-', ' '),
      }));
      return <ChoiceValue {...{ name, help, options, onValue }} value={value as string} />;
    }
    case 'colour':
      return <ColourValue {...{ name, help, onValue }} value={value as string} />;
    case 'switch':
      return <SwitchValue {...{ name, help, on, off, onValue }} value={value as boolean} />;
    case 'text':
      return <TextValue {...{ name, parameter, onValue }} value={value as string} />;
    case 'picture':
      return <PictureValue {...{ name, parameter, onValue }} value={value as string} />;
    case 'numbers': {
      const { least, most, min } = parameter;
      return (
        <ListValue
          {...{ name, least, most }}
          items={value as readonly number[]}
          fresh={min}
          onItems={onValue}
          draw={(item, itemName, onItem) => (
            <NumberValue name={itemName} help={help} range={parameter} value={item} onValue={onItem} />
          )}
        />
      );
    }
    case 'colours': {
      const { least, most } = parameter;
      return (
        <ListValue
          {...{ name, least, most }}
          items={value as readonly string[]}
          fresh="#808080"
          onItems={onValue}
          draw={(item, itemName, onItem) => (
            <ColourValue name={itemName} help={help} value={item} onValue={onItem} />
          )}
        />
      );
    }
  }
}
