import { expect, it } from 'vitest';
import type { Work } from '../../words/work.ts';
import { stepAdded } from '../state/edit.ts';
import { placed, toggled, type Way, wayOf } from './placed.ts';

const WORK: Work = {
  ...{ version: 1, ground: '#ffffff', layout: 'straight', size: { width: 100, height: 100 } },
  laying: { steps: [], seed: '1' },
  ...{ resists: {}, trials: [] },
};
const begun = stepAdded(WORK, 'linen-weave');
const lie = (work: Work, way: Way) => placed(work, work.laying.steps[0], way);
const maskOf = (work: Work) => work.laying.steps[0].mask;

it('lies over all until a colour is touched, and again when the last is let go', () => {
  expect(maskOf(lie(begun, 'sparing'))).toBe(undefined);
  const one = toggled(undefined, '#112233', true)!;
  expect(one).toEqual({ colours: ['#112233'], spare: true });
  expect(wayOf(one)).toBe('sparing');
  expect(toggled(one, '#445566', false)).toEqual({ colours: ['#112233', '#445566'], spare: true });
  expect(toggled(one, '#112233', true)).toBe(undefined);
});

it('keeps the touched colours when it is turned round, and the painted resist', () => {
  const touched: Work = {
    ...begun,
    laying: {
      ...begun.laying,
      steps: [{ ...begun.laying.steps[0], mask: { colours: ['#112233'], tolerance: 8 } }],
    },
  };
  expect(maskOf(lie(touched, 'sparing'))).toEqual({ colours: ['#112233'], tolerance: 8, spare: true });
  const around = lie(begun, 'resist');
  const [name] = Object.keys(around.resists);
  expect(maskOf(around)).toEqual({ picture: `resist:${name}`, spare: true });
  const only = lie(around, 'painted');
  expect(maskOf(only)).toEqual({ picture: `resist:${name}`, spare: false });
  expect(Object.keys(only.resists)).toEqual([name]);
  expect(maskOf(lie(only, 'all'))).toBe(undefined);
});

it('says every way', () => {
  expect(wayOf(undefined)).toBe('all');
  expect(wayOf({ colours: ['#112233'] })).toBe('colours');
  expect(wayOf({ picture: 'resist:a', spare: true })).toBe('resist');
  expect(wayOf({ picture: 'resist:a' })).toBe('painted');
  expect(wayOf({ picture: 'opened:a' })).toBe('picture');
});
