import type { Frame } from '../../colour/frame.ts';
import type { FaultParts } from '../../fault.ts';
import type {
  Axis,
  CheckOptions,
  ClosingLayout,
  EdgeReport,
  InspectedPicture,
  SeamReport,
} from '../../inspect/index.ts';
import type {
  CloseChange,
  ClosedPicture,
  CloseOrder,
  ClosePlan,
  LitPicture,
  SlowLight,
} from '../../join/index.ts';
import type { ResultCheck } from '../../render/verdict.ts';
import type { Grid } from '../../repeat/grid.ts';
import type { Layout } from '../../repeat/layout.ts';

/** What a hand is asked. Pictures lie in shared memory. */
export type HandOrder =
  | { readonly kind: 'tile'; readonly tile: Frame; readonly layout: Layout }
  | {
      readonly kind: 'edges';
      readonly picture: InspectedPicture;
      readonly layout: Layout;
      readonly axis: Axis;
      readonly options?: CheckOptions;
    }
  | { readonly kind: 'closing'; readonly picture: InspectedPicture }
  | ({ readonly kind: 'result' } & ResultCheck)
  | { readonly kind: 'resample'; readonly tile: Frame; readonly grid: Grid }
  | { readonly kind: 'light'; readonly picture: LitPicture; readonly divides: boolean }
  | { readonly kind: 'plan close'; readonly picture: LitPicture; readonly order: CloseOrder }
  | { readonly kind: 'close'; readonly picture: LitPicture; readonly plan: ClosePlan }
  | { readonly kind: 'change'; readonly picture: LitPicture; readonly closed: ClosedPicture };

/** What each kind of order comes back with. */
export interface HandResults {
  readonly tile: SeamReport;
  readonly edges: EdgeReport[];
  readonly closing: ClosingLayout[];
  readonly result: SeamReport;
  readonly resample: Frame;
  /** The slow light, and the samples without it where that was asked. */
  readonly light: { readonly light: SlowLight; readonly samples: LitPicture['samples'] };
  readonly 'plan close': ClosePlan;
  readonly close: ClosedPicture;
  readonly change: CloseChange;
}

export type HandAnswer =
  | { readonly result: HandResults[HandOrder['kind']] }
  | { readonly fault: FaultParts }
  | { readonly failed: string };

/** True for what a hand may say; the rest of the host can then rely on its types. */
export function isHandAnswer(said: unknown): said is HandAnswer {
  if (typeof said !== 'object' || said === null) return false;
  if ('failed' in said) return typeof said.failed === 'string';
  if ('fault' in said) return typeof said.fault === 'object' && said.fault !== null;
  return 'result' in said && typeof said.result === 'object' && said.result !== null;
}
