import { useState } from 'preact/hooks';
import { usePage } from '../state/context.ts';
import { recipeAdded, stepAdded } from '../state/edit.ts';
import { onEscape } from '../trials/escape.ts';
import { SmallCloth } from '../trials/small-cloth.tsx';

/** The effects and recipes, to be chosen by looking at them on the design itself. */
export function AddStep() {
  const { desk, unfolded } = usePage();
  const { laying } = desk.work.value;
  const [isOpen, open] = useState(laying.steps.length === 0);
  const effects = [...desk.effects.value.values()];
  const before = new Set(laying.steps.map(({ id }) => id));
  const done = () => {
    const added = desk.work.peek().laying.steps.find(({ id }) => !before.has(id))?.id;
    unfolded.value = added;
    open(false);
    // The list that had the focus is gone; the new step is where one goes on.
    requestAnimationFrame(() => document.getElementById(`step ${added}`)?.focus());
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Escape is heard for what lies within
    <div class="add" onKeyDown={onEscape(() => open(false))}>
      <button
        type="button"
        aria-expanded={isOpen}
        onClick={(event) => {
          open(!isOpen);
          const { parentElement } = event.currentTarget;
          requestAnimationFrame(() => parentElement?.scrollIntoView({ block: 'start' }));
        }}
      >
        {laying.steps.length === 0 ? 'Lay a texture' : 'Then lay something more'}
      </button>
      {isOpen && (
        <ul class="swatches">
          {effects.map(({ effect }) => (
            <li key={effect.name}>
              <button
                type="button"
                title={effect.summary}
                onClick={() => {
                  desk.change((work) => stepAdded(work, effect.name, desk.effects.peek()));
                  done();
                }}
              >
                <SmallCloth
                  side={84}
                  sideMm={60}
                  laying={{ steps: [{ id: 'look', effect: effect.name }], seed: laying.seed }}
                />
                <span>{effect.name.replaceAll('-', ' ')}</span>
              </button>
            </li>
          ))}
          {desk.begin.recipes.map((recipe) => (
            <li key={`recipe ${recipe.name}`}>
              <button
                type="button"
                title={recipe.summary}
                onClick={() => {
                  desk.change((work) => recipeAdded(work, recipe.laying));
                  done();
                }}
              >
                <SmallCloth side={84} sideMm={60} laying={recipe.laying} />
                <span>{recipe.name.replaceAll('-', ' ')}, a recipe</span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
