import { expect, test } from 'vitest';
import { groupDigest } from '../../../core/certificate/groupDigest.ts';

test('a digest stands in eight groups of eight and loses no digit', () => {
  const digest = '0123456789abcdef'.repeat(4);
  const grouped = groupDigest(digest);
  expect(grouped.split(' ')).toHaveLength(8);
  expect(grouped.slice(0, 17)).toBe('01234567 89abcdef');
  expect(grouped.replaceAll(' ', '')).toBe(digest);
});

test('a short or empty text stays as it is', () => {
  expect(groupDigest('abc')).toBe('abc');
  expect(groupDigest('')).toBe('');
});
