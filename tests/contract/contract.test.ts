import { describe, expect, test } from 'vitest';
import { type CallName, calls, notices } from '../../core/contract/index.ts';
import { examples } from './examples.ts';

const names = Object.keys(calls) as CallName[];

describe('contract', () => {
  test('every call has examples and every example has a call', () => {
    expect(Object.keys(examples).sort()).toEqual([...names].sort());
  });

  test('the record and its calls are frozen', () => {
    expect(Object.isFrozen(calls)).toBe(true);
    for (const name of names) expect(Object.isFrozen(calls[name])).toBe(true);
    expect(Object.isFrozen(notices)).toBe(true);
  });

  test.each(names)('%s: examples pass their schemas and come back equal from JSON', (name) => {
    const { input, output } = examples[name];
    const inputBack: unknown = JSON.parse(JSON.stringify(input));
    const outputBack: unknown = JSON.parse(JSON.stringify(output));
    expect(calls[name].input.parse(inputBack)).toEqual(input);
    expect(calls[name].output.parse(outputBack)).toEqual(output);
  });

  test.each(names)('%s: an unknown member is refused, in and out', (name) => {
    const { input, output } = examples[name];
    expect(calls[name].input.safeParse({ ...input, extra: 1 }).success).toBe(false);
    expect(calls[name].output.safeParse({ ...output, extra: 1 }).success).toBe(false);
  });

  test.each(
    names.flatMap((name) => examples[name].refused.map(([why, input]) => [name, why, input] as const)),
  )('%s refuses %s', (name, _why, input) => {
    expect(calls[name].input.safeParse(input).success).toBe(false);
  });

  test.each(names)('%s: the size limit leaves room for its own example', (name) => {
    expect(JSON.stringify(examples[name].input).length).toBeLessThan(calls[name].limit);
  });
});
