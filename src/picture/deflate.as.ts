// Rows of a PNG filtered and deflated in WebAssembly, compiled by AssemblyScript: `npm run kernels` writes `deflate-kernel.ts`.
// A search for what stood before, which zlib makes, is left out: textures hardly repeat to the byte, see tests/bench/TRIED.md.

/** Symbols of bytes and, from 256 on, of the end of a block and the lengths of runs (RFC 1951, 3.2.5). */
const END_OF_BLOCK = 256;
const FIRST_RUN = 257;
const SYMBOLS = 286;
/** So few that four codes fit into a word of 64 bits beside seven bits that wait; RFC 1951 allows one bit more. */
const LONGEST_CODE = 14;
/** Symbols that tell the lengths of codes, and the longest code that these may have (RFC 1951, 3.2.7). */
const LENGTH_SYMBOLS = 19;
const LONGEST_LENGTH_CODE = 7;
const LEAST_RUN: u32 = 3;
const LONGEST_RUN: u32 = 258;
/** Bytes that share a set of codes. */
const BLOCK_BYTES = 1 << 16;
const ADLER_BASE: u32 = 65521;
/** Blocks of 16 bytes until the sums of Adler-32 could outgrow 32 bits. */
const ADLER_BLOCKS = 256;

/** Lists of u32: how often each symbol comes, four times, as neighbours would wait for each other; and its code, with the length from bit 16 on. */
const COUNTS = memory.data(4 * 4 * SYMBOLS);
const CODES = memory.data(4 * SYMBOLS);
const LENGTH_COUNTS = memory.data(4 * LENGTH_SYMBOLS);
const LENGTH_CODES = memory.data(4 * LENGTH_SYMBOLS);
/** Lists of u32 that `makeCodes` works with. */
const SORTED = memory.data(4 * SYMBOLS);
const TREE = memory.data(4 * SYMBOLS);
const OF_LENGTH = memory.data(4 * 64);
/** Lists of u8: lengths of all codes, and how these are told: pairs of a symbol and what follows it. */
const LENGTHS = memory.data(SYMBOLS + 2);
const TOLD = memory.data(2 * (SYMBOLS + 2));
/** List of u16: bytes, and lengths of runs from 256 on. */
const TOKENS = memory.data(2 * BLOCK_BYTES);

/** Where the next whole byte goes, and the bits that do not fill one yet. */
let target: usize = 0;
let waiting: u64 = 0;
let waitingBits: u32 = 0;

/** What `measure` found. */
export let differences: f64 = 0;
export let alike: f64 = 0;

/** The first byte that is nobody's. */
export function firstFree(): usize {
  return __heap_base;
}

/**
 * Filters one row of bytes (PNG Specification, 9.2). Up to 16 bytes behind it are written over, and as many behind the
 * row are read.
 *
 * @param before Of each pixel's bytes those that it is told by: of the pixel to the left, or above.
 * @param isSub  True where that is the left: the first pixel has none.
 * @param opaque True where each fourth byte is left out.
 */
export function filterBytes(
  source: usize,
  before: usize,
  width: i32,
  isSub: bool,
  opaque: bool,
  row: usize,
): void {
  store<u8>(row, isSub ? 1 : 2);
  const end = source + ((<usize>width) << 2);
  const colours = i8x16(0, 1, 2, 4, 5, 6, 8, 9, 10, 12, 13, 14, 16, 16, 16, 16);
  let to = row + 1;
  if (opaque) {
    for (let from = source, other = before; from < end; from += 16, other += 16, to += 12)
      v128.store(to, i8x16.swizzle(i8x16.sub(v128.load(from), v128.load(other)), colours));
  } else {
    for (let from = source, other = before; from < end; from += 16, other += 16, to += 16)
      v128.store(to, i8x16.sub(v128.load(from), v128.load(other)));
  }
  if (isSub) memory.copy(row + 1, source, opaque ? 3 : 4);
}

/** As `filterBytes`, of samples of 16 bit, which a PNG holds with the high byte first. */
export function filterShorts(
  source: usize,
  before: usize,
  width: i32,
  isSub: bool,
  opaque: bool,
  row: usize,
): void {
  store<u8>(row, isSub ? 1 : 2);
  const channels = opaque ? 3 : 4;
  let to = row + 1;
  for (let x = 0; x < width; x++) {
    for (let channel = 0; channel < channels; channel++, to += 2) {
      const at = (<usize>(4 * x + channel)) << 1;
      const value = load<u16>(source + at);
      const last = isSub && x === 0 ? 0 : load<u16>(before + at);
      store<u8>(to, <u8>((value >> 8) - (last >> 8)));
      store<u8>(to + 1, <u8>(value - last));
    }
  }
}

/** Sums up what bytes come to as differences, without sign, and counts those that are like the three before them. */
export function measure(from: usize, bytes: i32): void {
  let sums = i32x4.splat(0);
  let runs = 0;
  const end = from + bytes;
  for (from += 3; from + 16 <= end; from += 16) {
    const here = v128.load(from);
    const sizes = i8x16.abs(here);
    sums = i32x4.add(sums, i32x4.extadd_pairwise_i16x8_u(i16x8.extadd_pairwise_i8x16_u(sizes)));
    const one = i8x16.eq(here, v128.load(from - 1));
    const two = v128.and(one, i8x16.eq(here, v128.load(from - 2)));
    runs += popcnt(i8x16.bitmask(v128.and(two, i8x16.eq(here, v128.load(from - 3)))));
  }
  let rest: i32 = 0;
  for (; from < end; from++) {
    const value = load<i8>(from);
    rest += abs(<i32>value);
    const isLike =
      value === load<i8>(from - 1) && value === load<i8>(from - 2) && value === load<i8>(from - 3);
    if (isLike) runs++;
  }
  differences = <f64>sumOf(sums) + <f64>rest;
  alike = <f64>runs;
}

/** The Adler-32 check sum of bytes (RFC 1950, 8.2). */
export function adler32(from: usize, bytes: i32): u32 {
  const weights = i8x16(16, 15, 14, 13, 12, 11, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1);
  let low: u32 = 1;
  let high: u32 = 0;
  const end = from + bytes;
  while (from + 16 <= end) {
    const blocks = min((end - from) >> 4, ADLER_BLOCKS);
    let sums = i32x4.splat(0);
    let before = i32x4.splat(0);
    let weighed = i32x4.splat(0);
    for (const stop = from + (blocks << 4); from < stop; from += 16) {
      const here = v128.load(from);
      before = i32x4.add(before, sums);
      sums = i32x4.add(sums, i32x4.extadd_pairwise_i16x8_u(i16x8.extadd_pairwise_i8x16_u(here)));
      const lower = i16x8.extmul_low_i8x16_u(here, weights);
      const upper = i16x8.extmul_high_i8x16_u(here, weights);
      weighed = i32x4.add(weighed, i32x4.extadd_pairwise_i16x8_u(i16x8.add(lower, upper)));
    }
    high = (high + ((<u32>blocks) << 4) * low + (sumOf(before) << 4) + sumOf(weighed)) % ADLER_BASE;
    low = (low + sumOf(sums)) % ADLER_BASE;
  }
  for (; from < end; from++) {
    low = (low + load<u8>(from)) % ADLER_BASE;
    high = (high + low) % ADLER_BASE;
  }
  return (high << 16) | low;
}

function sumOf(four: v128): u32 {
  return (
    i32x4.extract_lane(four, 0) +
    i32x4.extract_lane(four, 1) +
    i32x4.extract_lane(four, 2) +
    i32x4.extract_lane(four, 3)
  );
}

/**
 * Deflates bytes into blocks of codes of their own (RFC 1951, 3.2.7), up to a flush point.
 *
 * @param withRuns True where runs of one byte are told as such, else all bytes are told one by one.
 * @returns Bytes written: no more than an eighth more than were given, and 1024.
 */
export function deflate(from: usize, bytes: i32, to: usize, withRuns: bool): usize {
  target = to;
  waiting = 0;
  waitingBits = 0;
  const end = from + bytes;
  for (let start = from; start < end; start += BLOCK_BYTES) {
    const stop = min(start + BLOCK_BYTES, end);
    if (withRuns) writeRuns(from, start, stop);
    else writeBytes(start, stop);
  }
  // An empty stored block ends on a whole byte.
  put(0, 3);
  target += (waitingBits + 7) >> 3;
  store<u32>(target, 0xffff0000);
  return target + 4 - to;
}

function writeBytes(start: usize, stop: usize): void {
  countBytes(start, stop);
  writeHead(FIRST_RUN);
  let to = target;
  let bits = waiting;
  let count = waitingBits;
  let from = start;
  for (; from + 4 <= stop; from += 4) {
    const four = load<u32>(from);
    const a = codeOf(four & 255);
    const b = codeOf((four >> 8) & 255);
    const c = codeOf((four >> 16) & 255);
    const d = codeOf(four >> 24);
    const lengthA = a >> 16;
    const lengthAb = lengthA + (b >> 16);
    const lengthC = c >> 16;
    const ab = (a & 0xffff) | ((b & 0xffff) << lengthA);
    const cd = (c & 0xffff) | ((d & 0xffff) << lengthC);
    bits |= (<u64>ab | ((<u64>cd) << lengthAb)) << count;
    count += lengthAb + lengthC + (d >> 16);
    store<u64>(to, bits);
    to += count >> 3;
    bits >>= count & 0x38;
    count &= 7;
  }
  target = to;
  waiting = bits;
  waitingBits = count;
  for (; from < stop; from++) putCode(codeOf(load<u8>(from)));
  putCode(codeOf(END_OF_BLOCK));
}

function countBytes(start: usize, stop: usize): void {
  memory.fill(COUNTS, 0, 4 * 4 * SYMBOLS);
  let from = start;
  for (; from + 4 <= stop; from += 4) {
    const four = load<u32>(from);
    countOne(COUNTS, four & 255);
    countOne(COUNTS + 4 * SYMBOLS, (four >> 8) & 255);
    countOne(COUNTS + 8 * SYMBOLS, (four >> 16) & 255);
    countOne(COUNTS + 12 * SYMBOLS, four >> 24);
  }
  for (; from < stop; from++) countOne(COUNTS, load<u8>(from));
  for (let symbol = 0; symbol < 256; symbol++) {
    const at = COUNTS + (symbol << 2);
    const rest = load<u32>(at, 4 * SYMBOLS) + load<u32>(at, 8 * SYMBOLS) + load<u32>(at, 12 * SYMBOLS);
    store<u32>(at, load<u32>(at) + rest);
  }
  countOne(COUNTS, END_OF_BLOCK);
}

/** @param first Of the whole piece: before it nothing is known. */
function writeRuns(first: usize, start: usize, stop: usize): void {
  const end = findRuns(first, start, stop);
  writeHead(SYMBOLS);
  for (let at = TOKENS; at < end; at += 2) {
    const token = <u32>load<u16>(at);
    if (token < 256) putCode(codeOf(token));
    else putRun(token - 256);
  }
  putCode(codeOf(END_OF_BLOCK));
}

/** @returns The end of the tokens. */
function findRuns(first: usize, start: usize, stop: usize): usize {
  memory.fill(COUNTS, 0, 4 * SYMBOLS);
  let to = TOKENS;
  for (let from = start; from < stop; to += 2) {
    const value = <u32>load<u8>(from);
    const length = from > first && load<u8>(from - 1) === value ? runAt(from, stop, value) : 1;
    if (length < LEAST_RUN) {
      store<u16>(to, <u16>value);
      countOne(COUNTS, value);
      from++;
    } else {
      store<u16>(to, <u16>(256 + length));
      countOne(COUNTS, symbolOfRun(length));
      from += length;
    }
  }
  countOne(COUNTS, END_OF_BLOCK);
  return to;
}

/** How many bytes from here on are `value`. */
function runAt(from: usize, stop: usize, value: u32): u32 {
  const most = <u32>min(stop - from, LONGEST_RUN);
  const four = <u64>(value * 0x01010101);
  const eight = four | (four << 32);
  let length: u32 = 0;
  while (length + 8 <= most) {
    const other = load<u64>(from + length) ^ eight;
    if (other !== 0) return length + (<u32>ctz(other) >> 3);
    length += 8;
  }
  while (length < most && load<u8>(from + length) === value) length++;
  return length;
}

/** Runs of lengths that share a symbol differ in so many bits behind it. */
function extraBitsOf(length: u32): u32 {
  const over = length - LEAST_RUN;
  return over < 8 || length === LONGEST_RUN ? 0 : 29 - clz(over);
}

function symbolOfRun(length: u32): u32 {
  if (length === LONGEST_RUN) return SYMBOLS - 1;
  const extra = extraBitsOf(length);
  return FIRST_RUN + 4 * extra + ((length - LEAST_RUN) >> extra);
}

function putRun(length: u32): void {
  const extra = extraBitsOf(length);
  putCode(codeOf(symbolOfRun(length)));
  if (length < LONGEST_RUN) put((length - LEAST_RUN) & ((1 << extra) - 1), extra);
  // The distance 1, of the two that `writeHead` gives codes to.
  put(0, 1);
}

/** Makes the codes of a block out of what was counted, and tells them. */
function writeHead(symbols: i32): void {
  makeCodes(COUNTS, symbols, LONGEST_CODE, CODES);
  for (let symbol = 0; symbol < symbols; symbol++) store<u8>(LENGTHS + symbol, <u8>(codeOf(symbol) >> 16));
  // Two distances have codes of one bit, as some readers want it complete.
  store<u8>(LENGTHS + symbols, 1);
  store<u8>(LENGTHS + symbols, 1, 1);
  const told = tellLengths(symbols + 2);
  makeCodes(LENGTH_COUNTS, LENGTH_SYMBOLS, LONGEST_LENGTH_CODE, LENGTH_CODES);
  // Not the last block, and with codes of its own.
  put(4, 3);
  put(symbols - FIRST_RUN, 5);
  put(1, 5);
  put(LENGTH_SYMBOLS - 4, 4);
  const order = memory.data<u8>([16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15]);
  for (let k = 0; k < LENGTH_SYMBOLS; k++)
    put(load<u32>(LENGTH_CODES + ((<usize>load<u8>(order + k)) << 2)) >> 16, 3);
  for (let at = TOLD; at < told; at += 2) {
    const symbol = <u32>load<u8>(at);
    putCode(load<u32>(LENGTH_CODES + (symbol << 2)));
    if (symbol >= 16) put(load<u8>(at, 1), symbol === 16 ? 2 : symbol === 17 ? 3 : 7);
  }
}

/** Tells `LENGTHS` in symbols that are counted. Lengths that are like those before are told together. @returns The end of `TOLD`. */
function tellLengths(count: i32): usize {
  memory.fill(LENGTH_COUNTS, 0, 4 * LENGTH_SYMBOLS);
  let to = TOLD;
  for (let at = 0; at < count; ) {
    const length = load<u8>(LENGTHS + at);
    let same = 1;
    while (at + same < count && load<u8>(LENGTHS + at + same) === length) same++;
    at += same;
    if (length !== 0) {
      to = tell(to, length, 0);
      same--;
    }
    while (same >= 3) {
      const most = length !== 0 ? 6 : same > 10 ? 138 : 10;
      const part = min(same, most);
      to =
        length !== 0 ? tell(to, 16, part - 3) : part > 10 ? tell(to, 18, part - 11) : tell(to, 17, part - 3);
      same -= part;
    }
    for (; same > 0; same--) to = tell(to, length, 0);
  }
  return to;
}

function tell(to: usize, symbol: u32, rest: i32): usize {
  store<u8>(to, <u8>symbol);
  store<u8>(to, <u8>rest, 1);
  countOne(LENGTH_COUNTS, symbol);
  return to + 2;
}

/**
 * Codes of least length for symbols that come so often (Huffman), none longer than `longest`; 0 for those that do
 * not come. At least two must.
 */
function makeCodes(counts: usize, symbols: i32, longest: i32, codes: usize): void {
  let used = 0;
  for (let symbol = 0; symbol < symbols; symbol++) {
    const count = load<u32>(counts + (symbol << 2));
    if (count > 0) setWord(SORTED, used++, (count << 9) | symbol);
  }
  sort(used);
  measureCodes(used);
  limitLengths(longest);
  memory.fill(codes, 0, (<usize>symbols) << 2);
  let rank = used;
  for (let length = 1; length <= longest; length++)
    for (let left = wordAt(OF_LENGTH, length); left > 0; left--)
      store<u32>(codes + ((wordAt(SORTED, --rank) & 511) << 2), length << 16);
  numberCodes(symbols, longest, codes);
}

/** Shell's sort, of numbers that are all different. */
function sort(count: i32): void {
  for (let gap = 57; gap > 0; gap = gap === 1 ? 0 : (gap * 2) / 5) {
    for (let k = gap; k < count; k++) {
      const value = wordAt(SORTED, k);
      let at = k;
      for (; at >= gap && wordAt(SORTED, at - gap) > value; at -= gap)
        setWord(SORTED, at, wordAt(SORTED, at - gap));
      setWord(SORTED, at, value);
    }
  }
}

/**
 * Counts how many codes of each length the rarest to the commonest need: Moffat and Katajainen, "In-place calculation
 * of minimum-redundancy codes" (1995), from memory.
 */
function measureCodes(count: i32): void {
  for (let k = 0; k < count; k++) setTree(k, wordAt(SORTED, k) >> 9);
  setTree(0, treeAt(0) + treeAt(1));
  let root = 0;
  let leaf = 2;
  for (let next = 1; next < count - 1; next++) {
    for (let half = 0; half < 2; half++) {
      const isRoot = leaf >= count || (root < next && treeAt(root) < treeAt(leaf));
      const weight = isRoot ? treeAt(root) : treeAt(leaf);
      setTree(next, half === 0 ? weight : treeAt(next) + weight);
      if (isRoot) setTree(root++, next);
      else leaf++;
    }
  }
  // Parents become depths, from the root down.
  setTree(count - 2, 0);
  for (let next = count - 3; next >= 0; next--) setTree(next, treeAt(treeAt(next)) + 1);
  memory.fill(OF_LENGTH, 0, 4 * 64);
  let free = 1;
  for (let depth = 0, inner = count - 2; free > 0; depth++) {
    let taken = 0;
    for (; inner >= 0 && treeAt(inner) === depth; inner--) taken++;
    addWord(OF_LENGTH, min(depth, 63), free - taken);
    free = 2 * taken;
  }
}

/** Codes that are too long are cut, and others made longer until all are told apart again. */
function limitLengths(longest: i32): void {
  for (let length = longest + 1; length < 64; length++)
    addWord(OF_LENGTH, longest, wordAt(OF_LENGTH, length));
  let taken: u32 = 0;
  for (let length = 1; length <= longest; length++) taken += wordAt(OF_LENGTH, length) << (longest - length);
  for (; taken > (<u32>1) << longest; taken--) {
    let length = longest - 1;
    while (wordAt(OF_LENGTH, length) === 0) length--;
    addWord(OF_LENGTH, longest, -1);
    addWord(OF_LENGTH, length, -1);
    addWord(OF_LENGTH, length + 1, 2);
  }
}

/** Gives each symbol that has a length its code, as RFC 1951, 3.2.2 has it, with the first bit lowest. */
function numberCodes(symbols: i32, longest: i32, codes: usize): void {
  let code: u32 = 0;
  for (let length = 1; length <= longest; length++, code <<= 1) {
    if (wordAt(OF_LENGTH, length) === 0) continue;
    for (let symbol = 0; symbol < symbols; symbol++) {
      if (wordAt(codes, symbol) !== (<u32>length) << 16) continue;
      setWord(codes, symbol, (length << 16) | turned(code++, length));
    }
  }
}

function turned(code: u32, length: u32): u32 {
  let bits: u32 = 0;
  for (let k: u32 = 0; k < length; k++) bits |= ((code >> k) & 1) << (length - 1 - k);
  return bits;
}

/** @param count 14 at most. */
function put(bits: u32, count: u32): void {
  waiting |= (<u64>bits) << waitingBits;
  waitingBits += count;
  store<u64>(target, waiting);
  target += waitingBits >> 3;
  waiting >>= waitingBits & 0x38;
  waitingBits &= 7;
}

function putCode(code: u32): void {
  put(code & 0xffff, code >> 16);
}

function codeOf(symbol: u32): u32 {
  return load<u32>(CODES + ((<usize>symbol) << 2));
}

function countOne(counts: usize, symbol: u32): void {
  addWord(counts, symbol, 1);
}

function wordAt(list: usize, index: i32): u32 {
  return load<u32>(list + ((<usize>index) << 2));
}

function setWord(list: usize, index: i32, value: u32): void {
  store<u32>(list + ((<usize>index) << 2), value);
}

function addWord(list: usize, index: i32, more: i32): void {
  setWord(list, index, wordAt(list, index) + more);
}

function treeAt(index: i32): i32 {
  return load<i32>(TREE + ((<usize>index) << 2));
}

function setTree(index: i32, value: i32): void {
  store<i32>(TREE + ((<usize>index) << 2), value);
}
