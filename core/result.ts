/**
 * The answer of anything that can fail in an expected way. Bugs throw (see `invariant`); outcomes return.
 */
export type Result<T, E> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly error: E };

/** Wraps a value as a success. */
export function ok<T>(value: T): { readonly ok: true; readonly value: T } {
  return { ok: true, value };
}

/** Wraps an expected failure. */
export function err<E>(error: E): { readonly ok: false; readonly error: E } {
  return { ok: false, error };
}

/** Throws with `message` when a condition that only a bug can break is broken. */
export function invariant(condition: unknown, message: string): asserts condition {
  if (!condition) throw new Error(`invariant broken: ${message}`);
}

/** Ends an exhaustive switch: a value that reaches it is a bug and its text is in the message. */
export function assertNever(value: never): never {
  throw new Error(`unexpected value: ${JSON.stringify(value)}`);
}
