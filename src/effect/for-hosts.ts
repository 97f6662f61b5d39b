/** What only those need who call effects. */

export * from '../nearest.ts';
export * from './contract.ts';
export * from './describe-range.ts';
export { reuseLayer } from './layer.ts';
export * from './picture-value.ts';
export * from './runner.ts';
export { humanise, type Sentence, type Slot, sentencesOf } from './sentence.ts';
export * from './setting.ts';
export { spokenValue, writtenValue } from './value.ts';
export { readWords, valueWords } from './value-words.ts';
export * from './values.ts';
