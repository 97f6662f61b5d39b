/** From sample 0..1 to linear light 0..1. */
export type Curve = (sample: number) => number;

/** Fixed point of ICC.1:2010, 4.6 (s15Fixed16Number). */
const FIXED_ONE = 65_536;
/** Parameters of each parametric curve (ICC.1:2010, table 65). */
const PARAMETERS = [1, 3, 4, 5, 7];

/**
 * The curve in the data of a tag (ICC.1:2010, 10.5 and 10.15); undefined where it is cut short or
 * of another type.
 */
export function curveAt(data: Buffer): Curve | undefined {
  if (data.length < 12) return undefined;
  const type = data.toString('latin1', 0, 4);
  if (type === 'curv') return sampledCurve(data);
  return type === 'para' ? parametricCurve(data) : undefined;
}

function sampledCurve(data: Buffer): Curve | undefined {
  const count = data.readUInt32BE(8);
  if (data.length < 12 + 2 * count) return undefined;
  if (count === 0) return (sample) => sample;
  if (count === 1) return powerCurve(data.readUInt16BE(12) / 256);
  const knots = Float64Array.from(
    { length: count },
    (_, index) => data.readUInt16BE(12 + 2 * index) / 65_535,
  );
  return (sample) => {
    const place = sample * (count - 1);
    const knot = Math.min(Math.floor(place), count - 2);
    return knots[knot] + (knots[knot + 1] - knots[knot]) * (place - knot);
  };
}

function powerCurve(gamma: number): Curve {
  return (sample) => sample ** gamma;
}

function parametricCurve(data: Buffer): Curve | undefined {
  const form = data.readUInt16BE(8);
  const count = PARAMETERS[form];
  if (count === undefined || data.length < 12 + 4 * count) return undefined;
  const given = Array.from({ length: count }, (_, index) => data.readInt32BE(12 + 4 * index) / FIXED_ONE);
  const [g, a = 1, b = 0] = given;
  const power: Curve = (sample) => Math.max(0, a * sample + b) ** g;
  if (form === 0) return power;
  if (form === 1) return (sample) => (sample >= -b / a ? power(sample) : 0);
  if (form === 2) return (sample) => (sample >= -b / a ? power(sample) : 0) + given[3];
  const [, , , c, d, e = 0, f = 0] = given;
  return (sample) => (sample >= d ? power(sample) + e : c * sample + f);
}
