interface Properties {
  readonly name: string;
  readonly help?: string;
  readonly value: boolean;
  /** How it reads. */
  readonly on: string;
  readonly off: string;
  readonly onValue: (value: boolean) => void;
}

/** A phrase that turns into the other when it is pressed. */
export function SwitchValue({ name, help, value, on, off, onValue }: Properties) {
  return (
    <button
      type="button"
      class="value switch"
      role="switch"
      aria-checked={value}
      aria-label={`${name}: ${value ? on : off}`}
      title={help}
      onClick={() => onValue(!value)}
    >
      {value ? on : off}
    </button>
  );
}
