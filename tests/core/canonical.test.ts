import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  asJson,
  bytesOfHex,
  canonicalJson,
  hexOf,
  type JsonValue,
  parseCanonical,
} from '../../core/canonical.ts';

const SEED = 20_261_125;

describe('asJson', () => {
  test.each([
    ['undefined in a list', { a: [1, undefined] }, 'a.1'],
    ['undefined as a member', { a: { b: undefined } }, 'a.b'],
    ['not a number', { a: Number.NaN }, 'a'],
    ['infinity', [Number.POSITIVE_INFINITY], '0'],
    ['a date', { at: new Date(0) }, 'at'],
    ['a map', new Map(), ''],
    ['bytes', { bytes: new Uint8Array(2) }, 'bytes'],
    ['a function', { f: () => 1 }, 'f'],
    ['a big integer', [[1n]], '0.0'],
    ['a symbol', Symbol('x'), ''],
    ['its own conversion', { toJSON: () => 'other' }, 'toJSON'],
    ['a list with holes', { list: new Array(3) }, 'list'],
  ])('refuses %s and says where', (_name, value, path) => {
    expect(asJson(value)).toMatchObject({
      ok: false,
      error: { code: 'canonical/notJson', details: { path } },
    });
  });

  test('refuses nesting that would exhaust the stack, and a circle', () => {
    const deep = JSON.parse('['.repeat(5000) + ']'.repeat(5000));
    expect(asJson(deep)).toMatchObject({
      ok: false,
      error: { details: { problem: 'nested deeper than 100' } },
    });
    const circle: Record<string, unknown> = {};
    circle.self = circle;
    expect(asJson(circle).ok).toBe(false);
  });

  test('accepts what JSON can carry, also objects without a prototype', () => {
    const bare = Object.assign(Object.create(null), { a: 1 });
    expect(asJson(bare)).toEqual({ ok: true, value: bare });
    expect(asJson([null, true, 'text', 1.5, { a: [] }]).ok).toBe(true);
  });
});

describe('canonicalJson', () => {
  test('throws for a value that would lose something', () => {
    // @ts-expect-error undefined is no JSON value
    expect(() => canonicalJson({ a: undefined })).toThrow(/not JSON at "a"/);
  });

  test(`any JSON value comes back equal, whatever the order of its members (seed ${SEED})`, () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const json = asJson(value);
        if (!json.ok) throw new Error(json.error.details.problem);
        const text = canonicalJson(json.value);
        expect(canonicalJson(reversed(json.value))).toBe(text);
        expect(parseCanonical(text).ok).toBe(true);
      }),
      { seed: SEED },
    );
  });
});

describe('parseCanonical', () => {
  test.each([
    ['white space', '{"a": 1}', 'canonical/notCanonical'],
    ['another order', '{"b":1,"a":2}', 'canonical/notCanonical'],
    ['another spelling of a number', '[1.0]', 'canonical/notCanonical'],
    ['a needless escape', '"\\u0041"', 'canonical/notCanonical'],
    ['a name twice', '{"a":1,"a":2}', 'canonical/notCanonical'],
    ['a byte order mark', '\ufeff{}', 'canonical/notJson'],
    ['no JSON', '{"a":}', 'canonical/notJson'],
    ['nothing', '', 'canonical/notJson'],
  ])('refuses %s', (_name, text, code) => {
    expect(parseCanonical(text)).toMatchObject({ ok: false, error: { code } });
  });

  test('keeps a member called __proto__ as a member', () => {
    const read = parseCanonical('{"__proto__":{"a":1}}');
    expect(read.ok && canonicalJson(read.value)).toBe('{"__proto__":{"a":1}}');
  });
});

describe('hex', () => {
  test('goes there and back', () => {
    expect(hexOf(bytesOfHex('00ff10'))).toBe('00ff10');
    expect(() => bytesOfHex('0')).toThrow();
    expect(() => bytesOfHex('zz')).toThrow();
  });
});

function reversed(value: JsonValue): JsonValue {
  if (typeof value !== 'object' || value === null) return value;
  if (isList(value)) return value.map(reversed);
  const members = Object.entries(value).reverse();
  return Object.fromEntries(members.map(([key, inner]) => [key, reversed(inner)]));
}

function isList(value: JsonValue): value is readonly JsonValue[] {
  return Array.isArray(value);
}
