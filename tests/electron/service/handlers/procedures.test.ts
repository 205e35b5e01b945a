import { describe, expect, test } from 'vitest';
import type { Shop } from '../../../../core/job/shop.ts';
import { isReviewed, type Procedure, reviewed, unreviewed } from '../../../../core/procedure/index.ts';
import { callOrThrow } from '../../../../electron/cli/playScript.ts';
import { newId } from '../../../../electron/service/clock.ts';
import { invented } from '../../../core/procedure/invented.ts';
import { openDemoShop, openService, refusalOf, testFolder } from './openService.ts';

const entered: Procedure = {
  ...unreviewed(invented),
  source: { ...unreviewed(invented).source, enteredBy: 'Mira Sandbank', enteredOn: '2026-01-12' },
};

const listed = (shop: Shop | null): Procedure | undefined =>
  shop?.procedures.find((each) => each.id === entered.id);

describe('a procedure through the service', () => {
  test('is entered by one person, reviewed by another, and both stay in the record', async () => {
    const service = await openService(testFolder());
    const before = await openDemoShop(service);
    const record = (person: string, procedure: Procedure) => ({ person, commandId: newId(), procedure });
    const first = await callOrThrow(service.dispatch, 'shop.recordProcedure', record('mira', entered));
    expect(listed(first.shop)).toEqual(entered);
    expect(first.shop?.procedures).toHaveLength(before.procedures.length + 1);

    const second = reviewed(entered, 'secondPerson', 'Tobias Lantern', { on: '2026-01-13', values: 30 });
    expect(await refusalOf(service.dispatch, 'shop.recordProcedure', record('mira', second))).toBe(
      'procedure/notInOwnName',
    );
    const slipped = { ...second, title: 'Another' };
    expect(await refusalOf(service.dispatch, 'shop.recordProcedure', record('tobias', slipped))).toBe(
      'procedure/reviewNotFitting',
    );
    const done = await callOrThrow(service.dispatch, 'shop.recordProcedure', record('tobias', second));
    const kept = listed(done.shop);
    expect(kept !== undefined && isReviewed(kept)).toBe(true);
    expect(await refusalOf(service.dispatch, 'shop.recordProcedure', record('mira', entered))).toBe(
      'procedure/editionTaken',
    );
    expect(await refusalOf(service.dispatch, 'shop.recordProcedure', record('nobody', entered))).toBe(
      'person/unknown',
    );
    expect(listed((await callOrThrow(service.dispatch, 'app.status', {})).shop)).toEqual(second);
  });
});
