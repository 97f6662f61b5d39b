/** mm: the fineness of the light. What is narrower than this on the surface is evened out at any density. */
export const FINENESS_MM = 0.04;
/** Pixels: what is coarser than its own pixels has been evened out over them already, and half a pixel more took 13 % off a tooth of 1.3 mm at 75 dpi. */
const LEAST_SPREAD = 0.25;
/** Pixels of spread from which samples of the curve itself are true to it. */
const SAMPLED_SPREAD = 0.8;
/** Spreads from the middle beyond which nothing is left of the curve. */
const REACH = 3.5;

/** How slopes are taken along one axis: a derivative, and the evening out across it. */
export interface SlopeTaps {
  /** Pixels to either side; a multiple of 3, for they are worked out by threes. */
  readonly reach: number;
  /** Per mm: of what lies so many pixels ahead, less what lies as many behind; `reach + 1`, the first 0. */
  readonly derivative: Float64Array;
  /** Of what lies so many pixels ahead and behind; `reach + 1`, the first for the pixel itself. */
  readonly smooth: Float64Array;
}

/**
 * The taps of a Gaussian and of its derivative (Canny, _A Computational Approach to Edge Detection_, 1986).
 * The spread is a number of mm wherever pixels are fine enough, so that slopes do not depend on the density;
 * where they are not, a quarter of a pixel.
 *
 * A spread under 0.8 pixels is too narrow to be sampled: there the taps are those that have its moments,
 * so that heights of the fifth degree have the slopes that the Gaussian gives them.
 */
export function slopeTaps(mmPerPixel: number): SlopeTaps {
  const spread = Math.max(FINENESS_MM / mmPerPixel, LEAST_SPREAD);
  const { derivative, smooth } = spread < SAMPLED_SPREAD ? matchedTaps(spread) : sampledTaps(spread);
  return { reach: smooth.length - 1, derivative: derivative.map((tap) => tap / mmPerPixel), smooth };
}

function matchedTaps(spread: number): Pick<SlopeTaps, 'derivative' | 'smooth'> {
  const variance = spread * spread;
  const third = (7.5 * variance * variance - 7.5 * variance + 2) / 120;
  const second = (1.5 * variance - 0.5) / 6 - 4 * third;
  const far = (3 * variance * variance - variance) / 24;
  const near = variance / 2 - 4 * far;
  return {
    derivative: Float64Array.of(0, 0.5 - 2 * second - 3 * third, second, third),
    smooth: Float64Array.of(1 - 2 * near - 2 * far, near, far, 0),
  };
}

function sampledTaps(spread: number): Pick<SlopeTaps, 'derivative' | 'smooth'> {
  const reach = 3 * Math.ceil((REACH * spread) / 3);
  const bell = Float64Array.from({ length: reach + 1 }, (_, k) => Math.exp(-((k / spread) ** 2) / 2));
  const sum = bell.reduce((total, tap) => total + 2 * tap, -bell[0]);
  const ramp = bell.reduce((total, tap, k) => total + 2 * tap * k * k, 0);
  return { derivative: bell.map((tap, k) => (tap * k) / ramp), smooth: bell.map((tap) => tap / sum) };
}
