interface Properties {
  readonly name: string;
  readonly help?: string;
  readonly options: readonly { readonly value: string; readonly words: string }[];
  readonly value: string;
  readonly onValue: (value: string) => void;
}

/** One of a few words within a sentence. It is as wide as the word that is chosen. */
export function ChoiceValue({ name, help, options, value, onValue }: Properties) {
  const words = options.find((option) => option.value === value)?.words ?? value;
  return (
    <span class="value choice" title={help}>
      <span aria-hidden="true">{words}</span>
      <select
        aria-label={name}
        value={value}
        onChange={(event) => onValue(event.currentTarget.value)}
        onKeyDown={(event) => event.stopPropagation()}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.words}
          </option>
        ))}
      </select>
    </span>
  );
}
