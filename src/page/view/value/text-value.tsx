import { useState } from 'preact/hooks';
import type { TextParameter } from '../../../effect/parameter.ts';
import { isValid } from '../../../effect/value.ts';

interface Properties {
  readonly name: string;
  readonly parameter: TextParameter;
  readonly value: string;
  readonly onValue: (value: string) => void;
}

/** A text within a sentence; taken as soon as it fits. */
export function TextValue({ name, parameter, value, onValue }: Properties) {
  const [written, write] = useState<string | undefined>(undefined);
  const shown = written ?? value;
  const fits = isValid(parameter, shown);
  return (
    <span class="text">
      <input
        class="value field"
        aria-label={`${name}: ${parameter.say}`}
        aria-invalid={!fits}
        title={parameter.help}
        size={Math.min(28, Math.max(4, shown.length))}
        maxLength={parameter.longest}
        value={shown}
        onInput={(event) => {
          const next = event.currentTarget.value;
          write(next);
          if (isValid(parameter, next)) onValue(next);
        }}
        onBlur={() => write(undefined)}
        onKeyDown={(event) => event.stopPropagation()}
      />
      {!fits && <span role="alert"> expects {parameter.say}</span>}
    </span>
  );
}
