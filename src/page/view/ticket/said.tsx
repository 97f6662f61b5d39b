import { useState } from 'preact/hooks';
import type { OfferedEffect } from '../../words/begin.ts';
import type { WorkStep } from '../../words/work.ts';
import { linesOf } from './lines.ts';
import { Sentence } from './sentence.tsx';

/** What a step is set to, in sentences; the finer points on asking. */
export function Said({ step, offered }: { step: WorkStep; offered: OfferedEffect }) {
  const [isWhole, showWhole] = useState(false);
  const { first, rest } = linesOf(offered.effect);
  return (
    <>
      <p>
        {first.map((line, place) => (
          <Sentence key={place} {...{ line, step, offered }} />
        ))}
      </p>
      {rest.length > 0 && (
        <details open={isWhole} onToggle={(event) => showWhole(event.currentTarget.open)}>
          <summary>
            {isWhole ? 'fewer words' : `${rest.length} finer ${rest.length === 1 ? 'point' : 'points'}`}
          </summary>
          {isWhole && (
            <ul class="rest">
              {rest.map((line, place) => (
                <li key={place}>
                  <Sentence {...{ line, step, offered }} />
                </li>
              ))}
            </ul>
          )}
        </details>
      )}
    </>
  );
}
