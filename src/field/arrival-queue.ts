/**
 * Cells waiting for a front, soonest first. Exact, unlike an untidy queue: waiting times are sorted
 * into spans, and only the span that is due is kept as a binary heap, which then fits the cache.
 *
 * A cell may be put in again when its time falls; the later copies come out too, and the caller skips
 * cells that it has already done.
 */
export class ArrivalQueue {
  private readonly heads: Int32Array;
  private due = 0;
  private nexts = new Int32Array(1024);
  private waiting = new Int32Array(1024);
  private used = 0;
  private free = -1;
  private keys = new Float32Array(1024);
  private cells = new Int32Array(1024);
  private size = 0;

  /**
   * @param times Of every cell; read when a cell is put in and when its span falls due.
   * @param from  The earliest time that will be put in.
   * @param span  Length of a span, in the unit of the times; above 0.
   * @param spans How many; later times than they cover all wait in the last.
   */
  constructor(
    private readonly times: Float32Array,
    private readonly from: number,
    private readonly span: number,
    private readonly spans: number,
  ) {
    this.heads = new Int32Array(spans).fill(-1);
  }

  push(cell: number): void {
    const time = this.times[cell];
    const at = Math.min(this.spans - 1, Math.floor((time - this.from) / this.span));
    if (at <= this.due) this.rise(time, cell);
    else this.wait(cell, at);
  }

  /** The cell with the least time, or -1 where none is left. */
  pop(): number {
    while (this.size === 0) {
      if (this.due + 1 >= this.spans) return -1;
      this.due++;
      this.fallDue(this.due);
    }
    const first = this.cells[0];
    this.size--;
    if (this.size > 0) this.sink(this.keys[this.size], this.cells[this.size]);
    return first;
  }

  private wait(cell: number, at: number): void {
    let entry = this.free;
    if (entry >= 0) this.free = this.nexts[entry];
    else {
      if (this.used === this.waiting.length) {
        this.nexts = doubled(this.nexts);
        this.waiting = doubled(this.waiting);
      }
      entry = this.used++;
    }
    this.waiting[entry] = cell;
    this.nexts[entry] = this.heads[at];
    this.heads[at] = entry;
  }

  private fallDue(at: number): void {
    let entry = this.heads[at];
    while (entry >= 0) {
      const next = this.nexts[entry];
      const cell = this.waiting[entry];
      this.rise(this.times[cell], cell);
      this.nexts[entry] = this.free;
      this.free = entry;
      entry = next;
    }
    this.heads[at] = -1;
  }

  private rise(key: number, cell: number): void {
    if (this.size === this.cells.length) {
      this.cells = doubled(this.cells);
      this.keys = doubled(this.keys);
    }
    const { keys, cells } = this;
    let at = this.size++;
    while (at > 0) {
      const parent = (at - 1) >> 1;
      if (keys[parent] <= key) break;
      keys[at] = keys[parent];
      cells[at] = cells[parent];
      at = parent;
    }
    keys[at] = key;
    cells[at] = cell;
  }

  private sink(key: number, cell: number): void {
    const { keys, cells, size } = this;
    let at = 0;
    for (;;) {
      let child = 2 * at + 1;
      if (child >= size) break;
      if (child + 1 < size && keys[child + 1] < keys[child]) child++;
      if (keys[child] >= key) break;
      keys[at] = keys[child];
      cells[at] = cells[child];
      at = child;
    }
    keys[at] = key;
    cells[at] = cell;
  }
}

function doubled<T extends Int32Array | Float32Array>(old: T): T {
  const made = new (old.constructor as new (length: number) => T)(2 * old.length);
  made.set(old as never);
  return made;
}
