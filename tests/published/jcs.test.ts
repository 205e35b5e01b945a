/**
 * Canonical JSON against RFC 8785: the example of section 3.2, the sorting rule of 3.2.3, the numbers of appendix B, and
 * the test data published with the scheme (github.com/cyberphone/json-canonicalization, testdata), typed by hand.
 */
import { describe, expect, test } from 'vitest';
import { asJson, canonicalJson, hexOf, parseCanonical, sha256Hex, utf8Of } from '../../core/canonical.ts';

function canonicalOf(text: string): string {
  const json = asJson(JSON.parse(text));
  if (!json.ok) throw new Error(json.error.details.problem);
  return canonicalJson(json.value);
}

/** Appendix B: the bits of a double and its text. */
const numbers: readonly (readonly [bits: string, text: string])[] = [
  ['0000000000000000', '0'],
  ['8000000000000000', '0'],
  ['0000000000000001', '5e-324'],
  ['8000000000000001', '-5e-324'],
  ['7fefffffffffffff', '1.7976931348623157e+308'],
  ['ffefffffffffffff', '-1.7976931348623157e+308'],
  ['4340000000000000', '9007199254740992'],
  ['c340000000000000', '-9007199254740992'],
  ['4430000000000000', '295147905179352830000'],
  ['44b52d02c7e14af5', '9.999999999999997e+22'],
  ['44b52d02c7e14af6', '1e+23'],
  ['44b52d02c7e14af7', '1.0000000000000001e+23'],
  ['444b1ae4d6e2ef4e', '999999999999999700000'],
  ['444b1ae4d6e2ef4f', '999999999999999900000'],
  ['444b1ae4d6e2ef50', '1e+21'],
  ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
  ['3eb0c6f7a0b5ed8d', '0.000001'],
  ['41b3de4355555553', '333333333.3333332'],
  ['41b3de4355555554', '333333333.33333325'],
  ['41b3de4355555555', '333333333.3333333'],
  ['41b3de4355555556', '333333333.3333334'],
  ['41b3de4355555557', '333333333.33333343'],
  ['becbf647612f3696', '-0.0000033333333333333333'],
  ['43143ff3c1cb0959', '1424953923781206.2'],
];

function doubleOf(bits: string): number {
  return new DataView(Uint8Array.from(Buffer.from(bits, 'hex')).buffer).getFloat64(0);
}

describe('RFC 8785', () => {
  test('the example of section 3.2.2 to 3.2.4, down to its bytes', () => {
    const text = canonicalOf(
      '{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],' +
        '"string":"\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/","literals":[null,true,false]}',
    );
    expect(hexOf(utf8Of(text))).toBe(
      '7b226c69746572616c73223a5b6e756c6c2c747275652c66616c73655d2c226e756d62657273223a5b' +
        '3333333333333333332e333333333333332c31652b33302c342e352c302e3030322c31652d32375d2c' +
        '22737472696e67223a22e282ac245c75303030665c6e4127425c225c5c5c5c5c222f227d',
    );
  });

  test('test data "structures"', () => {
    const text = canonicalOf(
      '{"1":{"f":{"f":"hi","F":5},"\\n":56.0},"10":{},"":"empty","a":{},"111":[{"e":"yes","E":"no"}],"A":{}}',
    );
    expect(text).toBe(
      '{"":"empty","1":{"\\n":56,"f":{"F":5,"f":"hi"}},"10":{},"111":[{"E":"no","e":"yes"}],"A":{},"a":{}}',
    );
    expect(sha256Hex(text)).toBe('605f65004ec2db7692522a0852c22f1c989e036d547e88963d1a3143cf3195d5');
  });

  test('test data "arrays"', () => {
    expect(canonicalOf('[56,{"d":true,"10":null,"1":[]}]')).toBe('[56,{"1":[],"10":null,"d":true}]');
  });

  test('test data "unicode": nothing is normalised', () => {
    const text = canonicalOf('{"Unnormalized Unicode":"A\\u030a"}');
    expect(hexOf(utf8Of(text))).toContain('41cc8a');
  });

  test('test data "weird": names in the order of UTF-16 code units', () => {
    const names = ['\u20ac', '\r', '\ufb33', '1', '\ud83d\ude02', '\u0080', '\u00f6', '\n', '</script>'];
    const text = canonicalJson(Object.fromEntries(names.map((name) => [name, 0])));
    expect(Object.keys(JSON.parse(text)).filter((name) => name !== '1')).toEqual([
      '\n',
      '\r',
      '</script>',
      '\u0080',
      '\u00f6',
      '\u20ac',
      '\ud83d\ude02',
      '\ufb33',
    ]);
    expect(text.startsWith('{"\\n":0,"\\r":0,"1":0,"</script>":0,')).toBe(true);
  });

  test('test data "french": no language has a say', () => {
    expect(canonicalOf('{"peach":0,"p\u00e9ch\u00e9":0,"p\u00eache":0,"sin":0}')).toBe(
      '{"peach":0,"p\u00e9ch\u00e9":0,"p\u00eache":0,"sin":0}',
    );
  });

  test.each(numbers)('appendix B: double %s is %s', (bits, text) => {
    expect(canonicalJson(doubleOf(bits))).toBe(text);
    const back = JSON.parse(text);
    expect(Object.is(back, -0) || back === 0 ? 0 : back).toBe(doubleOf(bits) === 0 ? 0 : doubleOf(bits));
  });

  test.each([
    ['7fffffffffffffff', 'not a number'],
    ['7ff0000000000000', 'infinity'],
    ['fff0000000000000', 'minus infinity, ours'],
  ])('appendix B: double %s (%s) is an error', (bits) => {
    expect(asJson(doubleOf(bits)).ok).toBe(false);
    expect(() => canonicalJson(doubleOf(bits))).toThrow(/not JSON/);
  });

  test('section 3.2.2.2: a lone surrogate is an error, in a value and in a name', () => {
    expect(asJson('\udead').ok).toBe(false);
    expect(asJson({ '\ud83d': 1 }).ok).toBe(false);
    expect(parseCanonical('"\\udead"').ok).toBe(false);
  });

  test('section 3.1: a name twice is an error', () => {
    expect(parseCanonical('{"a":1,"a":1}')).toMatchObject({ error: { code: 'canonical/notCanonical' } });
  });
});
