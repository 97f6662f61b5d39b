import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

let collect: (() => void) | undefined;

/**
 * Gives back at once what dead objects of this thread hold. V8 does not look at how large typed arrays are that lie
 * outside its heap before it has filled a good part of that: a thread that has looked at the seams of 57 megapixels would
 * keep some 40 MB until it is asked again.
 */
export function giveBack(): void {
  if (!collect) {
    setFlagsFromString('--expose-gc');
    collect = runInNewContext('gc') as () => void;
  }
  collect();
}
