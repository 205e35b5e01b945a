import { expect, test } from 'vitest';
import { dueStanding, SOON_DAYS } from '../../../core/job/dueStanding.ts';

test.each([
  ['2026-11-25', '2026-11-26', 'over'],
  ['2026-11-25', '2026-11-25', 'soon'],
  ['2026-12-25', '2026-11-25', 'soon'],
  ['2026-12-26', '2026-11-25', 'holds'],
  ['2027-01-01', '2026-12-31', 'soon'],
  ['2025-12-31', '2026-01-01', 'over'],
  ['2028-03-01', '2028-01-30', 'holds'],
  ['2028-03-01', '2028-01-31', 'soon'],
] as const)('due on %s, seen on %s: %s', (dueOn, today, standing) => {
  expect(dueStanding(dueOn, today)).toBe(standing);
  expect(SOON_DAYS).toBe(30);
});
