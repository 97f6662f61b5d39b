interface Properties {
  readonly name: string;
  readonly help?: string;
  /** `#rrggbb` */
  readonly value: string;
  readonly onValue: (value: string) => void;
}

/** A colour within a sentence: a dab of it, and how it is written. */
export function ColourValue({ name, help, value, onValue }: Properties) {
  return (
    <label class="value colour" title={help}>
      <input
        type="color"
        aria-label={`${name}, ${value}`}
        value={value.toLowerCase()}
        onInput={(event) => onValue(event.currentTarget.value)}
      />
      <span aria-hidden="true">{value}</span>
    </label>
  );
}
