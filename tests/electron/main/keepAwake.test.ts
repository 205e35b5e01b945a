import { describe, expect, test } from 'vitest';
import { isJobAddress, keepAwake } from '../../../electron/main/keepAwake.ts';

const at = (fragment: string) => `app://datumline/index.html${fragment}`;

function blocker() {
  const held = new Set<number>();
  let last = 0;
  return {
    held,
    started: () => last,
    start: () => {
      last += 1;
      held.add(last);
      return last;
    },
    stop: (id: number) => held.delete(id),
  };
}

describe('which address is a job', () => {
  test.each([
    ['#/job/0190/placement', true],
    ['#/', false],
    ['#/shop', false],
    ['#/far', false],
    ['', false],
  ])('%s: %s', (fragment, job) => {
    expect(isJobAddress(at(fragment))).toBe(job);
  });
});

test('the display stays awake from the first job opened to the last one left, held once', () => {
  const display = blocker();
  const hear = keepAwake(display);
  hear(1, at('#/'));
  expect(display.held.size).toBe(0);
  hear(1, at('#/job/0190/intake'));
  hear(1, at('#/job/0190/placement'));
  hear(2, at('#/job/0191/placement'));
  expect(display.held.size).toBe(1);
  hear(1, at('#/'));
  expect(display.held.size).toBe(1);
  hear(2, undefined);
  expect(display.held.size).toBe(0);
  hear(1, at('#/job/0190/placement'));
  expect(display.held.size).toBe(1);
  expect(display.started()).toBe(2);
});

test('a window closed with its job open lets the display sleep', () => {
  const display = blocker();
  const hear = keepAwake(display);
  hear(1, at('#/job/0190/placement'));
  hear(1, undefined);
  expect(display.held.size).toBe(0);
});
