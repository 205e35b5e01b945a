import { describe, expect, test } from 'vitest';
import {
  checkProcedure,
  contentDigest,
  isReviewed,
  type Procedure,
  procedureSchema,
  reviewed,
  unreviewed,
} from '../../../core/procedure/index.ts';
import { invented } from './invented.ts';

const entered: Procedure = {
  ...unreviewed(invented),
  source: { ...unreviewed(invented).source, enteredOn: '2026-01-12' },
};
const codes = (procedure: Procedure): readonly string[] => checkProcedure(procedure).map((each) => each.code);

describe('the content of a procedure', () => {
  test('is the same before and after a review, under another number, with a page kept beside', () => {
    const later = {
      ...reviewed(entered, 'secondPerson', 'B. Example', { on: '2026-01-13', values: 30 }),
      edition: 4,
    };
    const page = { digest: 'a'.repeat(64), kind: 'pdf' as const };
    const kept = { ...later, source: { ...later.source, page } };
    expect(contentDigest(later)).toBe(contentDigest(entered));
    expect(contentDigest(kept)).toBe(contentDigest(entered));
    expect(procedureSchema.safeParse(kept).success).toBe(true);
  });

  test('is another with any value changed, also the place in the source', () => {
    const [station] = entered.stations;
    const changes: readonly Partial<Procedure>[] = [
      { title: 'Another' },
      { source: { ...entered.source, section: '2' } },
      { stations: entered.stations.map((each) => (each === station ? { ...each, name: 'Middle' } : each)) },
    ];
    const digests = changes.map((change) => contentDigest({ ...entered, ...change }));
    expect(new Set([contentDigest(entered), ...digests]).size).toBe(4);
  });

  test('loses a review whole', () => {
    const bare = unreviewed(
      reviewed(entered, 'otherShop', 'C. Else', { on: '2026-01-13', values: 3, shop: 'Pier' }),
    );
    expect(bare).toEqual(entered);
    expect(isReviewed(bare)).toBe(false);
  });
});

describe('who and how fit together', () => {
  test('documents from before the day was kept still read and stay reviewed', () => {
    expect(procedureSchema.safeParse(invented).success).toBe(true);
    expect(isReviewed(invented)).toBe(true);
  });

  test('a second entry on the day of the first is none', () => {
    const own = (on: string): Procedure =>
      reviewed(entered, 'ownSecondEntry', entered.source.enteredBy, { on, values: 9 });
    expect(codes(own('2026-01-12'))).toEqual(['procedure/reviewUnclear']);
    expect(codes(own('2026-01-11'))).toEqual(['procedure/reviewUnclear']);
    expect(codes(own('2026-01-13'))).toEqual([]);
    expect(isReviewed(own('2026-01-12'))).toBe(false);
  });

  test('another shop has a name', () => {
    const review = { on: '2026-01-13', values: 9 };
    expect(codes(reviewed(entered, 'otherShop', 'C. Else', review))).toEqual(['procedure/reviewUnclear']);
    expect(codes(reviewed(entered, 'otherShop', 'C. Else', { ...review, shop: 'Pier' }))).toEqual([]);
  });

  test('a review without a way, or by who entered it, is none', () => {
    const half = { ...entered, source: { ...entered.source, review: { on: '2026-01-13', values: 9 } } };
    expect(codes(half)).toEqual(['procedure/reviewUnclear']);
    const self = reviewed(entered, 'secondPerson', ' a. example ', { on: '2026-01-13', values: 9 });
    expect(codes(self)).toEqual(['procedure/reviewUnclear']);
  });
});
