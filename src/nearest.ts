import { distance } from 'fastest-levenshtein';

/** The one of `names` that `name` was most likely meant to be, or none where all are far off. */
export function nearestName(name: string, names: readonly string[]): string | undefined {
  const begun = begunBy(name, names);
  if (begun.length === 1) return begun[0];
  const near = names
    .map((candidate) => ({ candidate, away: distance(name.toLowerCase(), candidate) }))
    .sort((a, b) => a.away - b.away)[0];
  const limit = Math.max(2, Math.ceil(name.length / 3));
  return near && near.away <= limit ? near.candidate : undefined;
}

/** The remedy of a message about an unknown name. */
export function suggestName(name: string, names: readonly string[]): string {
  const begun = begunBy(name, names);
  if (begun.length > 1 && begun.length < 5) return `Did you mean "${begun.join('" or "')}"?`;
  const near = nearestName(name, names);
  return near ? `Did you mean "${near}"?` : `There are: ${names.join(', ')}.`;
}

/** `linen` begins `linen-weave`; one or two letters begin too much. */
function begunBy(name: string, names: readonly string[]): string[] {
  return name.length < 3 ? [] : names.filter((candidate) => candidate.startsWith(name.toLowerCase()));
}
