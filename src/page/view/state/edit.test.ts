import { describe, expect, it } from 'vitest';
import type { Work } from '../../words/work.ts';
import { hung, letGo, pinned, strengthsOf, takenUp, throwsOf, trialName } from '../trials/pin.ts';
import {
  allThrownAgain,
  anotherThrow,
  freshId,
  recipeAdded,
  stepAdded,
  stepChanged,
  stepMoved,
  stepTaken,
  valueSet,
} from './edit.ts';
import { changed, redone, undone } from './undo.ts';

const WORK: Work = {
  ...{ version: 1, ground: '#ffffff', layout: 'drop:1/2', size: { width: 320, height: 320 } },
  laying: { steps: [], seed: '1' },
  ...{ resists: {}, trials: [] },
};
const order = (work: Work) => work.laying.steps.map(({ effect }) => effect).join(' ');

describe('a work', () => {
  const two = stepAdded(stepAdded(WORK, 'linen-weave'), 'salt-bloom');
  it('takes steps on, moves them and takes them away', () => {
    const [linen, salt] = two.laying.steps;
    expect(order(stepMoved(two, salt.id, -1))).toBe('salt-bloom linen-weave');
    expect(order(stepMoved(two, linen.id, 9))).toBe('salt-bloom linen-weave');
    expect(stepMoved(two, 'none', 1)).toBe(two);
    expect(order(stepTaken(two, linen.id))).toBe('salt-bloom');
    expect(order(recipeAdded(two, two.laying))).toBe('linen-weave salt-bloom linen-weave salt-bloom');
  });
  it('lays what moves paint under the grounds that are there', () => {
    const planes = { 'linen-weave': ['shade'], 'salt-bloom': ['load', 'shift'], 'dry-brush': ['load'] };
    const effects = new Map(
      Object.entries(planes).map(([name, list]) => [name, { effect: { planes: list } as never }]),
    );
    const add = (work: Work, effect: string) => stepAdded(work, effect, effects);
    expect(order(add(add(add(WORK, 'dry-brush'), 'linen-weave'), 'salt-bloom'))).toBe(
      'dry-brush salt-bloom linen-weave',
    );
    expect(order(add(add(WORK, 'salt-bloom'), 'linen-weave'))).toBe('salt-bloom linen-weave');
    expect(order(add(add(WORK, 'unknown'), 'salt-bloom'))).toBe('unknown salt-bloom');
  });
  it('gives every step and trial a name of its own', () => {
    const many = pinned(recipeAdded(hung(two, throwsOf(two, two.laying.steps[0].id, 3)), two.laying));
    const ids = [...many.laying.steps.map(({ id }) => id), ...many.trials.map(({ id }) => id)];
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids).not.toContain(freshId(many));
  });
  it('sets a value, and gives it back', () => {
    const [linen] = two.laying.steps;
    const set = valueSet(two, linen.id, 'sett', 9);
    expect(set.laying.steps[0].parameters).toEqual({ sett: 9 });
    expect(valueSet(set, linen.id, 'sett', undefined).laying.steps[0].parameters).toEqual({});
    expect(two.laying.steps[0].parameters).toBe(undefined);
  });
  it('throws again: seeds that are numbers are counted on, others changed', () => {
    expect(anotherThrow('7')).toBe('8');
    expect(anotherThrow('oak')).not.toBe('oak');
  });
  it('throws all again to one that is not there, also after a single step was thrown', () => {
    const [linen] = two.laying.steps;
    const one = stepChanged(two, linen.id, { seed: '2' });
    const all = allThrownAgain(one).laying;
    expect(all.seed).toBe('3');
    expect(all.steps.map(({ seed }) => seed)).toEqual([undefined, undefined]);
  });
  it('hangs throws of one step that differ, the present one first, and strengths of it', () => {
    const [linen, salt] = two.laying.steps;
    const throws = throwsOf(two, salt.id, 6);
    const seeds = throws.map(({ laying }) => laying.steps.map(({ seed }) => seed));
    expect(seeds.map(([of]) => of)).toEqual(Array(6).fill(undefined));
    expect(seeds.map(([, of]) => of)).toEqual([undefined, '2', '3', '4', '5', '6']);
    const strengths = strengthsOf(two, linen.id).map(({ laying }) =>
      laying.steps.map(({ opacity }) => opacity),
    );
    expect(strengths).toEqual([0.2, 0.4, 0.6, 0.8, 1].map((opacity) => [opacity, undefined]));
    expect(strengthsOf(WORK, 'none')).toEqual([]);
    const hanging = hung(two, throws);
    expect(takenUp(hanging, hanging.trials[3]).laying).toEqual(throws[3].laying);
    expect(letGo(hanging, hanging.trials[0].id).trials).toHaveLength(5);
    expect(trialName(two.laying)).toBe('linen weave and salt bloom, throw 1');
  });
});

describe('undo', () => {
  const at = (seed: string): Work => ({ ...WORK, laying: { steps: [], seed } });
  const begun = { work: at('1'), past: [], future: [] };
  it('goes back and forth over every change, a drag as one', () => {
    let story = changed(begun, at('2'), false);
    story = changed(story, at('3'), true);
    story = changed(story, at('4'), false);
    const seeds = [];
    for (let k = 0; k < 4; k++, story = undone(story)) seeds.push(story.work.laying.seed);
    expect(seeds).toEqual(['4', '3', '1', '1']);
    story = redone(redone(redone(story)));
    expect(story.work.laying.seed).toBe('4');
    expect(story.future).toEqual([]);
  });
  it('forgets what was undone once something else is done', () => {
    const story = changed(undone(changed(begun, at('2'), false)), at('5'), false);
    expect(redone(story).work.laying.seed).toBe('5');
  });
});
