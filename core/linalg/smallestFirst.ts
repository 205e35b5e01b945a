/** Numbers handed out the smallest first: a binary heap (Knuth, The Art of Computer Programming 3, section 5.2.3). */
import { item } from './at.ts';

/** A queue of numbers. */
export class SmallestFirst {
  private readonly heap: number[] = [];

  /** Puts a number in. */
  push(value: number): void {
    const { heap } = this;
    let hole = heap.length;
    heap.push(value);
    while (hole > 0) {
      const parent = (hole - 1) >> 1;
      const above = item(heap, parent);
      if (above <= value) break;
      heap[hole] = above;
      hole = parent;
    }
    heap[hole] = value;
  }

  /** Takes the smallest out; undefined when empty. */
  pop(): number | undefined {
    const { heap } = this;
    const smallest = heap[0];
    const value = heap.pop();
    if (value === undefined || heap.length === 0) return smallest;
    let hole = 0;
    for (let child = 1; child < heap.length; child = 2 * hole + 1) {
      if (child + 1 < heap.length && item(heap, child + 1) < item(heap, child)) child++;
      if (item(heap, child) >= value) break;
      heap[hole] = item(heap, child);
      hole = child;
    }
    heap[hole] = value;
    return smallest;
  }
}
