declare module 'seedrandom/lib/alea.js' {
  interface Generator {
    (): number;
    int32(): number;
  }
  export default function alea(seed: string): Generator;
}
