/** ICC profiles from numbers, by ICC.1:2010, independent of the code under test and of its engine. */
export type Xyz = readonly [number, number, number];

/** White of the profile connection space (ICC.1:2010, 7.2.16). */
export const D50: Xyz = [0.9642, 1, 0.8249];

/** A profile of curves and a matrix. */
export function matrixProfile(colorants: readonly [Xyz, Xyz, Xyz], curve: Buffer): Buffer {
  const [red, green, blue] = colorants.map(xyzData);
  return profile('RGB ', 'XYZ ', {
    rXYZ: red,
    gXYZ: green,
    bXYZ: blue,
    rTRC: curve,
    gTRC: curve,
    bTRC: curve,
  });
}

/** A profile of one curve. */
export function greyProfile(curve: Buffer, connection: 'XYZ ' | 'Lab ' = 'XYZ '): Buffer {
  return profile('GRAY', connection, { kTRC: curve });
}

/**
 * A profile that tells the same by tables (lut16Type, 10.10): one curve, then a lattice of two knots
 * a side. Of version 2, for version 4 wants the black of such profiles lifted.
 */
export function tableProfile(colorants: readonly Xyz[], curve: (sample: number) => number): Buffer {
  const knots = 1024;
  const head = Buffer.alloc(52);
  head.write('mft2', 'latin1');
  head.set([colorants.length, 3, 2], 8);
  for (const at of [12, 28, 44]) head.writeInt32BE(65_536, at);
  head.writeUInt16BE(knots, 48);
  head.writeUInt16BE(2, 50);
  const input = Array.from({ length: knots }, (_, index) => curve(index / (knots - 1)));
  const corners = Array.from({ length: 2 ** colorants.length }, (_, corner) => cornerOf(colorants, corner));
  const samples = [...colorants.flatMap(() => input), ...corners.flat(), 0, 1, 0, 1, 0, 1];
  const data = Buffer.concat([head, ...samples.map((sample) => word(Math.round(sample * 65_535)))]);
  return profile(colorants.length === 1 ? 'GRAY' : 'RGB ', 'XYZ ', { A2B0: data }, 2);
}

/** XYZ as fractions of the 1 + 32767/32768 that 16 bit can say (6.3.4.2). The first channel varies slowest. */
function cornerOf(colorants: readonly Xyz[], corner: number): number[] {
  const lit = colorants.filter((_, index) => corner & (1 << (colorants.length - 1 - index)));
  return [0, 1, 2].map(
    (part) => lit.reduce((sum, colorant) => sum + colorant[part], 0) / (1 + 32_767 / 32_768),
  );
}

export function gammaCurve(gamma: number): Buffer {
  return Buffer.concat([tagHead('curv'), long(1), word(Math.round(gamma * 256))]);
}

export function sampledCurve(count: number, curve: (sample: number) => number): Buffer {
  const samples = Array.from({ length: count }, (_, index) =>
    word(Math.round(curve(index / (count - 1)) * 65_535)),
  );
  return Buffer.concat([tagHead('curv'), long(count), ...samples]);
}

/** Parameters in the order of ICC.1:2010, table 65. */
export function parametricCurve(form: number, ...parameters: number[]): Buffer {
  return Buffer.concat([tagHead('para'), word(form), word(0), ...parameters.map(fixed)]);
}

function profile(
  space: string,
  connection: string,
  tags: Record<string, Buffer>,
  version: 2 | 4 = 4,
): Buffer {
  const all = { desc: description('Test colours', version), wtpt: xyzData(D50), ...tags };
  const names = Object.keys(all) as (keyof typeof all)[];
  let at = 128 + 4 + 12 * names.length;
  const entries = names.map((name) => {
    const entry = Buffer.concat([Buffer.from(name, 'latin1'), long(at), long(all[name].length)]);
    at += padded(all[name]).length;
    return entry;
  });
  const body = Buffer.concat([long(names.length), ...entries, ...names.map((name) => padded(all[name]))]);
  return Buffer.concat([header(128 + body.length, version, space, connection), body]);
}

function header(size: number, version: number, space: string, connection: string): Buffer {
  const bytes = Buffer.alloc(128);
  bytes.writeUInt32BE(size, 0);
  bytes.writeUInt32BE((version << 24) | 0x20_00_00, 8);
  bytes.write(`mntr${space}${connection}`, 12, 'latin1');
  // A date, which some readers insist on.
  for (const [index, part] of [2020, 1, 1].entries()) bytes.writeUInt16BE(part, 24 + 2 * index);
  bytes.write('acsp', 36, 'latin1');
  Buffer.concat(D50.map(fixed)).copy(bytes, 68);
  return bytes;
}

function description(text: string, version: 2 | 4): Buffer {
  if (version === 2) {
    // Plain text, then empty Unicode and script texts (ICC.1:2001-04, 6.5.17).
    return Buffer.concat([
      tagHead('desc'),
      long(text.length + 1),
      Buffer.from(`${text}\0`),
      Buffer.alloc(78),
    ]);
  }
  const utf16 = Buffer.from(text, 'utf16le').swap16();
  const record = [Buffer.from('enUS', 'latin1'), long(utf16.length), long(28)];
  return Buffer.concat([tagHead('mluc'), long(1), long(12), ...record, utf16]);
}

function xyzData(xyz: Xyz): Buffer {
  return Buffer.concat([tagHead('XYZ '), ...xyz.map(fixed)]);
}

function tagHead(type: string): Buffer {
  return Buffer.from(`${type}\0\0\0\0`, 'latin1');
}

function padded(bytes: Buffer): Buffer {
  return Buffer.concat([bytes], Math.ceil(bytes.length / 4) * 4);
}

function fixed(value: number): Buffer {
  const bytes = Buffer.alloc(4);
  bytes.writeInt32BE(Math.round(value * 65_536));
  return bytes;
}

function long(value: number): Buffer {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32BE(value);
  return bytes;
}

function word(value: number): Buffer {
  const bytes = Buffer.alloc(2);
  bytes.writeUInt16BE(Math.min(value, 65_535));
  return bytes;
}
