import { describe, expect, test } from 'vitest';
import { shopSchema } from '../../../core/job/shop.ts';
import { recordedProcedure, withProcedure } from '../../../core/job/shopProcedures.ts';
import { isReviewed, type Procedure, reviewed, unreviewed } from '../../../core/procedure/index.ts';
import { invariant } from '../../../core/result.ts';
import { shop } from '../../renderer/demoHeld.ts';
import { invented } from '../procedure/invented.ts';

const author = 'Mira Sandbank';
const entered: Procedure = {
  ...unreviewed(invented),
  source: { ...unreviewed(invented).source, enteredBy: author, enteredOn: '2026-01-12' },
};
const review = { on: '2026-01-14', values: 30 };
const second = reviewed(entered, 'secondPerson', 'Greta Anchor', review);
const changed = (edition: number): Procedure => ({ ...entered, edition, title: 'Changed' });

const holding = (procedure: Procedure): typeof shop => withProcedure(shop, procedure);
const refusal = (result: ReturnType<typeof recordedProcedure>): string =>
  result.ok ? 'taken' : result.error;

describe('an entry', () => {
  test('is taken in the name of who enters it and in nobody else’s', () => {
    const taken = recordedProcedure(shop, author, entered);
    invariant(taken.ok, 'it is taken');
    expect(taken.value.procedures.at(-1)).toEqual(entered);
    expect(shopSchema.safeParse(taken.value).success).toBe(true);
    expect(refusal(recordedProcedure(shop, 'Greta Anchor', entered))).toBe('procedure/notInOwnName');
  });

  test('replaces an unreviewed one of its number, and never a reviewed one', () => {
    expect(refusal(recordedProcedure(holding(entered), author, changed(1)))).toBe('taken');
    expect(refusal(recordedProcedure(holding(second), author, changed(1)))).toBe('procedure/editionTaken');
    expect(refusal(recordedProcedure(holding(second), author, changed(2)))).toBe('taken');
    expect(refusal(recordedProcedure(holding({ ...entered, edition: 3 }), author, changed(2)))).toBe(
      'procedure/editionTaken',
    );
  });

  test('that follows a reviewed edition keeps that one to compare with, in its old place in the list', () => {
    const held = withProcedure(holding(second), { ...entered, id: 'another' });
    const after = recordedProcedure(held, author, changed(2));
    invariant(after.ok, 'it is taken');
    expect(after.value.formerProcedures).toEqual([second]);
    expect(after.value.procedures.map((each) => each.id)).toEqual(held.procedures.map((each) => each.id));
    expect(shopSchema.safeParse(after.value).success).toBe(true);
  });

  test('that follows an unreviewed one leaves nothing behind', () => {
    const after = recordedProcedure(holding(entered), author, changed(1));
    invariant(after.ok, 'it is taken');
    expect(after.value.formerProcedures).toBeUndefined();
  });

  test('only so many former editions are kept', () => {
    let held = shop;
    for (let edition = 1; edition <= 70; edition += 1) {
      held = withProcedure(held, { ...second, edition, title: `Title ${edition}` });
    }
    expect(held.formerProcedures).toHaveLength(60);
    expect(held.formerProcedures?.at(-1)?.edition).toBe(69);
    expect(shopSchema.safeParse(held).success).toBe(true);
  });
});

describe('a review', () => {
  test('is taken from the person who reviewed, and makes the procedure usable', () => {
    const taken = recordedProcedure(holding(entered), 'Greta Anchor', second);
    invariant(taken.ok, 'it is taken');
    expect(taken.value.procedures.filter((each) => each.id === entered.id).map(isReviewed)).toEqual([true]);
    expect(taken.value.formerProcedures).toBeUndefined();
    expect(refusal(recordedProcedure(holding(entered), 'Tobias Lantern', second))).toBe(
      'procedure/notInOwnName',
    );
  });

  test.each<[string, Procedure]>([
    ['a changed value', { ...second, title: 'Slipped in' }],
    ['another edition', { ...second, edition: 2 }],
    [
      'another page',
      { ...second, source: { ...second.source, page: { digest: 'b'.repeat(64), kind: 'pdf' } } },
    ],
    ['who entered it', reviewed(entered, 'secondPerson', author, review)],
    ['the same day', reviewed(entered, 'ownSecondEntry', author, { on: '2026-01-12', values: 3 })],
    [
      'content of another digest',
      reviewed(entered, 'otherShop', 'C', { ...review, shop: 'Pier', content: 'c'.repeat(64) }),
    ],
  ])('with %s does not fit', (_name, procedure) => {
    expect(refusal(recordedProcedure(holding(entered), procedure.source.reviewedBy ?? '', procedure))).toBe(
      'procedure/reviewNotFitting',
    );
  });

  test('of something that is not here does not fit', () => {
    expect(refusal(recordedProcedure(shop, 'Greta Anchor', second))).toBe('procedure/reviewNotFitting');
  });

  test('by a second entry belongs to who made the first', () => {
    const own = reviewed(entered, 'ownSecondEntry', author, review);
    expect(refusal(recordedProcedure(holding(entered), author, own))).toBe('taken');
    expect(refusal(recordedProcedure(holding(entered), 'Greta Anchor', own))).toBe('procedure/notInOwnName');
  });
});
