/**
 * Arrays of numbers cut from a few large pieces of memory: to make an array of its own costs the engine more than to fill
 * it, and a solution needs dozens. All numbers are 0 at first; the arrays live as long as any of them.
 */
export class Block {
  private piece: ArrayBuffer;
  private used = 0;

  /** `bytes`: size of the pieces, about what will be asked for in all. */
  constructor(bytes: number) {
    this.piece = new ArrayBuffer(bytes);
  }

  /** So many numbers. */
  floats(count: number): Float64Array {
    const from = this.take(8 * count);
    return new Float64Array(this.piece, from, count);
  }

  /** So many whole numbers. */
  integers(count: number): Int32Array {
    const from = this.take(4 * count);
    return new Int32Array(this.piece, from, count);
  }

  private take(bytes: number): number {
    if (this.used + bytes > this.piece.byteLength) {
      this.piece = new ArrayBuffer(Math.max(bytes, this.piece.byteLength));
      this.used = 0;
    }
    const from = this.used;
    // Every array begins at a multiple of eight.
    this.used += (bytes + 7) & ~7;
    return from;
  }
}
