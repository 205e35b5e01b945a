import { describe, expect, test } from 'vitest';
import { equipmentSchema, fixtureSchema, targetSchema } from '../../../core/job/equipment.ts';
import {
  type EquipmentCheck,
  equipmentChecksSchema,
  foundMm,
  keepsItsLimit,
  MOST_CHECKS,
  withCheck,
} from '../../../core/job/equipmentChecks.ts';
import { personSchema, shopSchema } from '../../../core/job/shop.ts';
import { demoShop } from '../../../electron/service/handlers/shop.ts';

const reversal: EquipmentCheck = {
  kind: 'barByReversal',
  on: '2026-11-25',
  by: 'Mira Sandbank',
  firstMm: 1000.4,
  secondMm: 999.6,
  limitMm: 0.4,
};
const rule: EquipmentCheck = { ...reversal, kind: 'targetAgainstRule' };

describe('what a check finds', () => {
  test('turned end for end the stop drops out: half the difference, whichever was read first', () => {
    expect(foundMm(reversal)).toBeCloseTo(0.4, 12);
    expect(foundMm({ ...reversal, firstMm: 999.6, secondMm: 1000.4 })).toBeCloseTo(0.4, 12);
    // A stop that lies 7 mm elsewhere moves both readings alike.
    expect(foundMm({ ...reversal, firstMm: 1007.4, secondMm: 1006.6 })).toBeCloseTo(0.4, 12);
  });

  test('against a rule it is the whole difference', () => {
    expect(foundMm(rule)).toBeCloseTo(0.8, 12);
  });

  test('the limit itself is kept, and a tenth beyond it is not', () => {
    expect(keepsItsLimit(reversal)).toBe(true);
    expect(keepsItsLimit({ ...reversal, limitMm: 0.3 })).toBe(false);
    expect(keepsItsLimit(rule)).toBe(false);
    expect(keepsItsLimit({ ...rule, limitMm: 0.8 })).toBe(true);
  });
});

describe('checks that are kept', () => {
  test('stand in the order of their days, however they were entered', () => {
    const earlier = { ...reversal, on: '2026-01-01' };
    expect(withCheck([reversal], earlier).map(({ on }) => on)).toEqual(['2026-01-01', '2026-11-25']);
  });

  test('are so many at most: the oldest makes way, and the newest stays', () => {
    const many = Array.from({ length: MOST_CHECKS }, (_, n) => ({
      ...reversal,
      on: `2025-01-${String(n + 1).padStart(2, '0')}`,
    }));
    const kept = withCheck(many, reversal);
    expect(kept).toHaveLength(MOST_CHECKS);
    expect(kept[0]?.on).toBe('2025-01-02');
    expect(kept.at(-1)?.on).toBe('2026-11-25');
    expect(equipmentChecksSchema.safeParse(kept).success).toBe(true);
    expect(equipmentChecksSchema.safeParse([...kept, reversal]).success).toBe(false);
  });
});

describe('the record', () => {
  const shop = demoShop();
  const [fixture] = shop.fixtures;
  const [target] = shop.targets;
  const [person] = shop.people;

  test('made before there were checks and competence still reads', () => {
    expect(fixture !== undefined && 'checks' in fixture).toBe(false);
    expect(shopSchema.safeParse(shop).success).toBe(true);
  });

  test('takes checks, the u of a target and competence, and nothing it does not know', () => {
    expect(fixtureSchema.safeParse({ ...fixture, checks: [reversal] }).success).toBe(true);
    expect(fixtureSchema.safeParse({ ...fixture, checks: [{ ...reversal, more: 1 }] }).success).toBe(false);
    expect(targetSchema.safeParse({ ...target, uMm: 0.3, checks: [rule] }).success).toBe(true);
    expect(targetSchema.safeParse({ ...target, uMm: 0 }).success).toBe(false);
    const competence = [{ sensor: 'frontRadar', evidence: 'course 12', until: '2027-11-25' }];
    expect(personSchema.safeParse({ ...person, competence }).success).toBe(true);
    expect(
      personSchema.safeParse({ ...person, competence: [{ ...competence[0], evidence: '' }] }).success,
    ).toBe(false);
    expect(
      personSchema.safeParse({ ...person, competence: [{ ...competence[0], sensor: 'nose' }] }).success,
    ).toBe(false);
  });

  test('of a job freezes them with the rest', () => {
    const equipment = {
      fixture: { ...fixture, checks: [reversal] },
      target: { ...target, checks: [rule] },
      sideArms: shop.sideArms.slice(0, 2),
      instruments: shop.instruments,
      work: 'typical',
    };
    expect(equipmentSchema.safeParse(equipment).success).toBe(true);
  });
});
