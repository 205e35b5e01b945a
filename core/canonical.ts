/**
 * Canonical JSON (RFC 8785) and the digests made from it.
 *
 * Everything that is hashed is first one text that cannot be written in two ways: keys in UTF-16 code-unit order,
 * shortest numbers, no white space. The serializer is a library; it drops `undefined` and calls `toJSON`, so a value
 * is proved to be plain JSON before it gets there: what would vanish from a record is refused instead.
 */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, hexToBytes, utf8ToBytes } from '@noble/hashes/utils.js';
import serialize from 'canonicalize';
import { err, invariant, ok, type Result } from './result.ts';

/** A value that JSON can carry without loss. */
export type JsonValue = null | boolean | number | string | readonly JsonValue[] | JsonObject;

/** A JSON object. Absent members are absent, never `undefined`. */
export type JsonObject = { readonly [key: string]: JsonValue };

/** Why a value or a text is not canonical JSON; `path` is like `payload.readings.2`, empty for the whole. */
export type CanonicalError = {
  readonly code: 'canonical/notJson' | 'canonical/notCanonical';
  readonly details: { readonly path: string; readonly problem: string };
};

/** Nesting beyond this is refused: no record of ours comes near, and a hostile text must not exhaust the stack. */
const MAX_DEPTH = 100;

/**
 * Proves that `value` is plain JSON. Fails with `canonical/notJson` naming the first place that is not: `undefined`,
 * NaN, infinities, functions, dates, class instances, lone surrogates, nesting over 100.
 * Example: `asJson({ a: [1, NaN] })` fails at path `a.1`.
 */
export function asJson(value: unknown): Result<JsonValue, CanonicalError> {
  const found = firstProblem(value, '', 0);
  if (found !== undefined) return err({ code: 'canonical/notJson', details: found });
  return ok(value as JsonValue);
}

/**
 * The one canonical text of a JSON value (RFC 8785). A value that is not JSON is a bug of the caller and throws: use
 * `asJson` first for anything from outside. Example: `canonicalJson({ b: 1, a: 4.5 })` is `{"a":4.5,"b":1}`.
 */
export function canonicalJson(value: JsonValue): string {
  const found = firstProblem(value, '', 0);
  invariant(found === undefined, `not JSON at "${found?.path}": ${found?.problem}`);
  return textOf(value);
}

/**
 * Reads a text that must already be canonical, so duplicate names, white space, other key orders and other spellings
 * of a number fail with `canonical/notCanonical`, and no JSON at all with `canonical/notJson`.
 */
export function parseCanonical(text: string): Result<JsonValue, CanonicalError> {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return err({ code: 'canonical/notJson', details: { path: '', problem: 'the text is not JSON' } });
  }
  const json = asJson(value);
  if (!json.ok) return json;
  if (textOf(json.value) !== text) {
    return err({
      code: 'canonical/notCanonical',
      details: { path: '', problem: 'the text is not the canonical one' },
    });
  }
  return json;
}

/** SHA-256 (FIPS 180-4) of bytes, or of a text's UTF-8 bytes, as 64 lower-case hex digits. */
export function sha256Hex(data: Uint8Array | string): string {
  return bytesToHex(sha256(typeof data === 'string' ? utf8ToBytes(data) : data));
}

/** Lower-case hex of bytes. */
export function hexOf(bytes: Uint8Array): string {
  return bytesToHex(bytes);
}

/** Bytes of an even number of hex digits; anything else throws. */
export function bytesOfHex(hex: string): Uint8Array {
  return hexToBytes(hex);
}

/** UTF-8 bytes of a text without lone surrogates. */
export function utf8Of(text: string): Uint8Array {
  return utf8ToBytes(text);
}

function textOf(proved: JsonValue): string {
  const text = serialize(proved);
  invariant(text !== undefined, 'a JSON value has a text');
  return text;
}

function firstProblem(
  value: unknown,
  path: string,
  depth: number,
): { readonly path: string; readonly problem: string } | undefined {
  if (depth > MAX_DEPTH) return { path, problem: `nested deeper than ${MAX_DEPTH}` };
  switch (typeof value) {
    case 'boolean':
      return undefined;
    case 'number':
      return Number.isFinite(value) ? undefined : { path, problem: `${value} is not a JSON number` };
    case 'string':
      return value.isWellFormed() ? undefined : { path, problem: 'a lone surrogate' };
    case 'object':
      return value === null ? undefined : firstProblemInside(value, path, depth);
    default:
      return { path, problem: `${typeof value} is not JSON` };
  }
}

function firstProblemInside(value: object, path: string, depth: number): ReturnType<typeof firstProblem> {
  const isArray = Array.isArray(value);
  const proto: unknown = Object.getPrototypeOf(value);
  if (!isArray && proto !== null && Object.getPrototypeOf(proto) !== null) {
    return { path, problem: 'not a plain object' };
  }
  if (isArray && Object.keys(value).length !== value.length) return { path, problem: 'a list with holes' };
  for (const [key, inner] of Object.entries(value)) {
    const innerPath = path === '' ? key : `${path}.${key}`;
    if (!key.isWellFormed()) return { path: innerPath, problem: 'a lone surrogate in a name' };
    if (key === 'toJSON' && typeof inner === 'function')
      return { path: innerPath, problem: 'function is not JSON' };
    const found = firstProblem(inner, innerPath, depth + 1);
    if (found !== undefined) return found;
  }
  return undefined;
}
