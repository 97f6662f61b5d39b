import { DEFAULT_LIGHT, LIGHT_RANGES } from '../../../composite/light.ts';
import { usePage } from '../state/context.ts';
import { laid } from '../state/edit.ts';
import { NumberValue } from '../value/number-value.tsx';

const PARTS = [
  { name: 'direction', before: 'The light comes from ', unit: 'deg' },
  { name: 'elevation', before: ', stands ', unit: 'deg' },
  { name: 'gloss', before: ' high, and gleams ', unit: 'ratio' },
] as const;

/** The one light on all that is raised; only where something is. */
export function Light() {
  const { desk } = usePage();
  const { laying } = desk.work.value;
  const isRaised = laying.steps.some(({ effect }) => {
    const described = desk.effects.value.get(effect)?.effect;
    return described?.planes.includes('relief');
  });
  if (!isRaised) return null;
  return (
    <p>
      {PARTS.map(({ name, before, unit }) => {
        const [min, max] = LIGHT_RANGES[name];
        return (
          <span key={name}>
            {before}
            <NumberValue
              name={`light, ${name}`}
              range={{ unit, min, max }}
              value={laying.light?.[name] ?? DEFAULT_LIGHT[name]}
              onValue={(value) =>
                desk.change(
                  (work) => laid(work, { light: { ...work.laying.light, [name]: value } }),
                  `light ${name}`,
                )
              }
            />
          </span>
        );
      })}
      .
    </p>
  );
}
