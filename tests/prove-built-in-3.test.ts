import { proveEveryThird } from './prove-built-in.ts';

proveEveryThird(2);
