/** The four neighbours of a cell; the way back from a neighbour is `way ^ 1`. */
const RIGHT = 0;
const LEFT = 1;
const DOWN = 2;
const UP = 3;
/** What else may stand where a cell keeps the way to its parent. */
const ROOT = 4;
const ORPHAN = 5;
const FREE = 6;

const IN_FIRST = 0;
const IN_SECOND = 1;

const FAR = 2 ** 31 - 1;

/** Paths after which progress is told. */
const TELL_EVERY = 1024;

/**
 * The greatest flow from the first side to the second through a grid in which each cell has four neighbours.
 *
 * Boykov and Kolmogorov (2004): a tree grows from each side along what can still carry flow; where they touch, the
 * path is filled, and what it cuts off looks for another parent in its own tree before it falls free. Distances to
 * the root, stamped with the time they were found, keep paths short (their section 3.2.4).
 */
export class GridFlow {
  /** What each way can still carry, 4 per cell. */
  private readonly left: Int32Array;
  /** The neighbour that each way leads to, 4 per cell; -1 where there is none. */
  private readonly neighbour: Int32Array;
  /** Above 0 what can still come from the first side, below 0 what can still go to the second. */
  private readonly tied: Int32Array;
  private readonly parent: Uint8Array;
  private readonly tree: Uint8Array;
  private readonly distance: Int32Array;
  private readonly stamp: Int32Array;
  /** A list of the cells that may still grow: the next of each, itself where last, -1 where not in it. */
  private readonly next: Int32Array;
  private head = -1;
  private tail = -1;
  private readonly orphans: number[] = [];
  private time = 0;
  private flow = 0;

  constructor(private readonly count: number) {
    this.left = new Int32Array(4 * count);
    this.neighbour = new Int32Array(4 * count).fill(-1);
    this.tied = new Int32Array(count);
    this.parent = new Uint8Array(count).fill(FREE);
    this.tree = new Uint8Array(count);
    this.distance = new Int32Array(count);
    this.stamp = new Int32Array(count);
    this.next = new Int32Array(count).fill(-1);
  }

  /** Lets a cell take `fromFirst` from the first side and give `toSecond` to the second; once per cell. */
  tie(cell: number, fromFirst: number, toSecond: number): void {
    this.flow += Math.min(fromFirst, toSecond);
    this.tied[cell] = fromFirst - toSecond;
  }

  /** Lets a cell and its neighbour to the right carry so much to one another. */
  joinRight(cell: number, other: number, there: number, back: number): void {
    this.join(cell, RIGHT, other, LEFT, there, back);
  }

  /** Lets a cell and its neighbour below carry so much to one another. */
  joinDown(cell: number, other: number, there: number, back: number): void {
    this.join(cell, DOWN, other, UP, there, back);
  }

  private join(cell: number, way: number, other: number, wayBack: number, there: number, back: number): void {
    // A cell beside its own copy is never on another side than that.
    if (cell === other) return;
    this.neighbour[4 * cell + way] = other;
    this.neighbour[4 * other + wayBack] = cell;
    this.left[4 * cell + way] = there;
    this.left[4 * other + wayBack] = back;
  }

  /** Fills all paths; returns the flow, which is what the cheapest cut costs. */
  run(onProgress?: () => void): number {
    this.plant();
    let current = -1;
    let paths = 0;
    for (;;) {
      if (current < 0 || this.parent[current] === FREE) current = this.nextActive();
      if (current < 0) return this.flow;
      const bridge = this.grow(current);
      this.time++;
      if (bridge < 0) {
        current = -1;
        continue;
      }
      this.fill(bridge);
      this.adopt();
      if (++paths % TELL_EVERY === 0) onProgress?.();
    }
  }

  /** 1 for each cell that nothing more can reach from the first side. */
  secondSide(): Uint8Array {
    const { parent, tree, count } = this;
    const second = new Uint8Array(count).fill(1);
    for (let cell = 0; cell < count; cell++) {
      if (parent[cell] !== FREE && tree[cell] === IN_FIRST) second[cell] = 0;
    }
    return second;
  }

  private plant(): void {
    const { count, tied, parent, tree, distance } = this;
    for (let cell = 0; cell < count; cell++) {
      if (tied[cell] === 0) continue;
      tree[cell] = tied[cell] > 0 ? IN_FIRST : IN_SECOND;
      parent[cell] = ROOT;
      distance[cell] = 1;
      this.activate(cell);
    }
  }

  private activate(cell: number): void {
    const { next } = this;
    if (next[cell] >= 0) return;
    next[cell] = cell;
    if (this.tail >= 0) next[this.tail] = cell;
    else this.head = cell;
    this.tail = cell;
  }

  private nextActive(): number {
    const { next, parent } = this;
    while (this.head >= 0) {
      const cell = this.head;
      this.head = next[cell] === cell ? -1 : next[cell];
      if (this.head < 0) this.tail = -1;
      next[cell] = -1;
      if (parent[cell] !== FREE) return cell;
    }
    return -1;
  }

  /** Takes free neighbours into the tree of a cell; returns the way (4 * cell + way) to the other tree, -1 where none. */
  private grow(cell: number): number {
    const { left, neighbour, parent, tree, distance, stamp } = this;
    const own = tree[cell];
    for (let way = 0; way < 4; way++) {
      const arc = 4 * cell + way;
      const other = neighbour[arc];
      if (other < 0) continue;
      const back = 4 * other + (way ^ 1);
      if ((own === IN_FIRST ? left[arc] : left[back]) === 0) continue;
      if (parent[other] === FREE) {
        tree[other] = own;
        parent[other] = way ^ 1;
        stamp[other] = stamp[cell];
        distance[other] = distance[cell] + 1;
        this.activate(other);
      } else if (tree[other] !== own) {
        return own === IN_FIRST ? arc : back;
      } else if (stamp[other] <= stamp[cell] && distance[other] > distance[cell]) {
        parent[other] = way ^ 1;
        stamp[other] = stamp[cell];
        distance[other] = distance[cell] + 1;
      }
    }
    return -1;
  }

  /** Sends as much as the path over `bridge` carries; those whose way to their parent is full become orphans. */
  private fill(bridge: number): void {
    const { left, neighbour, parent, tied } = this;
    const start = bridge >> 2;
    const end = neighbour[bridge];
    const amount = Math.min(left[bridge], this.carriedFromFirst(start), this.carriedToSecond(end));
    left[bridge] -= amount;
    left[4 * end + ((bridge & 3) ^ 1)] += amount;
    let cell = start;
    for (let way = parent[cell]; way !== ROOT; way = parent[cell]) {
      const above = neighbour[4 * cell + way];
      left[4 * cell + way] += amount;
      if ((left[4 * above + (way ^ 1)] -= amount) === 0) this.orphan(cell);
      cell = above;
    }
    if ((tied[cell] -= amount) === 0) this.orphan(cell);
    cell = end;
    for (let way = parent[cell]; way !== ROOT; way = parent[cell]) {
      const above = neighbour[4 * cell + way];
      left[4 * above + (way ^ 1)] += amount;
      if ((left[4 * cell + way] -= amount) === 0) this.orphan(cell);
      cell = above;
    }
    if ((tied[cell] += amount) === 0) this.orphan(cell);
    this.flow += amount;
  }

  private carriedFromFirst(start: number): number {
    const { left, neighbour, parent, tied } = this;
    let least = FAR;
    let cell = start;
    for (let way = parent[cell]; way !== ROOT; way = parent[cell]) {
      const above = neighbour[4 * cell + way];
      least = Math.min(least, left[4 * above + (way ^ 1)]);
      cell = above;
    }
    return Math.min(least, tied[cell]);
  }

  private carriedToSecond(end: number): number {
    const { left, neighbour, parent, tied } = this;
    let least = FAR;
    let cell = end;
    for (let way = parent[cell]; way !== ROOT; way = parent[cell]) {
      least = Math.min(least, left[4 * cell + way]);
      cell = neighbour[4 * cell + way];
    }
    return Math.min(least, -tied[cell]);
  }

  private orphan(cell: number): void {
    this.parent[cell] = ORPHAN;
    this.orphans.push(cell);
  }

  private adopt(): void {
    const { orphans } = this;
    for (let k = 0; k < orphans.length; k++) this.findParent(orphans[k]);
    orphans.length = 0;
  }

  /** Finds the neighbour of the same tree that is nearest to a root, or sets the cell and its children free. */
  private findParent(cell: number): void {
    const { left, neighbour, parent, tree, distance, stamp, time } = this;
    const own = tree[cell];
    let best = FREE;
    let least = FAR;
    for (let way = 0; way < 4; way++) {
      const arc = 4 * cell + way;
      const other = neighbour[arc];
      if (other < 0 || parent[other] === FREE || tree[other] !== own) continue;
      if ((own === IN_FIRST ? left[4 * other + (way ^ 1)] : left[arc]) === 0) continue;
      const far = this.distanceToRoot(other);
      if (far >= least) continue;
      best = way;
      least = far;
    }
    if (best !== FREE) {
      parent[cell] = best;
      stamp[cell] = time;
      distance[cell] = least + 1;
      return;
    }
    parent[cell] = FREE;
    for (let way = 0; way < 4; way++) {
      const arc = 4 * cell + way;
      const other = neighbour[arc];
      if (other < 0 || parent[other] === FREE || tree[other] !== own) continue;
      if ((own === IN_FIRST ? left[4 * other + (way ^ 1)] : left[arc]) > 0) this.activate(other);
      if (parent[other] === (way ^ 1)) this.orphan(other);
    }
  }

  /** Steps from a cell to its root, `FAR` where an orphan stands between; remembered along the way. */
  private distanceToRoot(start: number): number {
    const { neighbour, parent, distance, stamp, time } = this;
    let far = 0;
    let cell = start;
    for (;;) {
      if (stamp[cell] === time) {
        far += distance[cell];
        break;
      }
      const way = parent[cell];
      far++;
      if (way === ROOT) {
        stamp[cell] = time;
        distance[cell] = 1;
        break;
      }
      if (way === ORPHAN) return FAR;
      cell = neighbour[4 * cell + way];
    }
    for (let back = start, rest = far; stamp[back] !== time; rest--) {
      stamp[back] = time;
      distance[back] = rest;
      back = neighbour[4 * back + parent[back]];
    }
    return far;
  }
}
