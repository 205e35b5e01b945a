import { describe, expect, test } from 'vitest';
import { assess } from '../../../core/job/assess.ts';
import { fieldById, stageById, stages } from '../../../core/job/stages/index.ts';
import { invariant } from '../../../core/result.ts';
import { checkVin } from '../../../core/vehicle/vin.ts';
import { fingerprintGroups } from '../../../renderer/screens/FirstRun/RootKey.tsx';
import { isComplete, type ShopForm } from '../../../renderer/screens/FirstRun/SetUpShop.tsx';
import { suggestionFor } from '../../../renderer/screens/fields/PersonalField.tsx';
import { groupsOf } from '../../../renderer/screens/fields/StageForm.tsx';
import { vinWords } from '../../../renderer/screens/fields/VinField.tsx';
import { equipmentOf } from '../../../renderer/screens/Intake/EquipmentChoice.tsx';
import { exchangeSides } from '../../../renderer/screens/readings/exchangeSides.ts';
import { kindsOf } from '../../../renderer/screens/SignOff/SignOffScreen.tsx';
import { stopReason } from '../../../renderer/screens/SignOff/SignPanel.tsx';
import { movedFact, movesDoneFact } from '../../../renderer/state/moves.ts';
import { answersOf, placementView } from '../../../renderer/state/placementView.ts';
import { slotsOf } from '../../../renderer/state/readings.ts';
import { readingFocusKey } from '../../../renderer/state/useFocusKey.ts';
import { moveAlone } from '../../../renderer/text/moveWords.ts';
import { cameraOf, heldAfter, movedIndex, readingIndex, SENSOR, script, shop } from '../demoHeld.ts';

const whole = heldAfter(script.steps.length);

describe('a stage as a form', () => {
  test.each(stages)('$id draws every row of its table exactly once per place', (stage) => {
    const rows = groupsOf(whole, stage).flatMap((group) => group.rows);
    const drawn = new Set(rows.map((row) => row.field.id));
    const inputs = cameraOf(whole).procedure?.inputs ?? [];
    const kinds = whole.job.sensors
      .filter((sensor) => sensor.disposition === 'staticHere')
      .map((sensor) => sensor.kind);
    const expected = stage.fields.filter(
      ({ per, need }) =>
        // Nothing of the demo shop is overdue: no reason is asked for.
        per !== 'overdue' &&
        (per !== 'input' || inputs.length > 0) &&
        (typeof need === 'string' ||
          !('whenSensor' in need) ||
          need.whenSensor.some((kind) => kinds.includes(kind))),
    );
    expect([...drawn].sort()).toEqual(expected.map((field) => field.id).sort());
  });

  test('the procedure’s conditions stand under their sensor, each with its own words', () => {
    const group = groupsOf(whole, stageById('prechecks')).find(
      (each) => each.heading === cameraOf(whole).name,
    );
    expect(group?.rows.map((row) => row.place.condition?.id)).toEqual([
      'wipersParked',
      'batterySteady',
      'patternWhole',
      'roomBehindBoard',
    ]);
  });

  test('a job without a sensor to calibrate has nothing to enter beyond Intake and Sign-off', () => {
    const empty = heldAfter(0);
    const open = stages.filter((stage) => groupsOf(empty, stage).length > 0).map((stage) => stage.id);
    expect(open).toEqual(['intake', 'signoff']);
  });
});

describe('one-tap suggestions for people', () => {
  test('the owner is offered to who orders and who pays, the shop as place of work', () => {
    expect(suggestionFor('intake.payer', whole, shop)?.text).toBe('Nils Breakwater');
    expect(suggestionFor('intake.placeOfWork', whole, shop)?.text).toContain(shop.name);
    expect(suggestionFor('intake.owner', whole, shop)).toBeUndefined();
    expect(suggestionFor('intake.payer', heldAfter(1), shop)).toBeUndefined();
  });
});

describe('the live line under a VIN', () => {
  test.each([
    ['1DEM0CAR5TH000001', /fit.*2026/],
    ['1DEM0CAR5TH00000', /17 characters; this has 16/],
    ['1DEM0CAR4TH000001', /ninth character should be 5/],
    ['', /^$/],
  ])('%s', (text, line) => {
    expect(vinWords(checkVin(text))).toMatch(line);
  });
});

describe('setting up a shop', () => {
  const form: ShopForm = {
    name: 'Quay',
    code: 'QUAY',
    address: '',
    bayName: 'Bay 1',
    personName: 'Greta',
    qualification: '',
    passphrase: 'harbour1',
  };
  test.each([
    [{}, true],
    [{ name: ' ' }, false],
    [{ code: 'Q' }, false],
    [{ code: 'quay' }, false],
    [{ passphrase: 'short' }, false],
    [{ personName: '' }, false],
    [{ qualification: '', address: '' }, true],
  ])('with %o it can be made: %s', (change, expected) => {
    expect(isComplete({ ...form, ...change })).toBe(expected);
  });

  test('a fingerprint is read to each other in groups of four', () => {
    expect(fingerprintGroups('3a403caa83')).toBe('3a40 3caa 83');
  });
});

describe('equipment of a sensor', () => {
  const wish = { fixture: undefined, target: 'board-1', work: 'careful' as const };

  test('is whole: fixture, target, both side arms and the instruments', () => {
    expect(equipmentOf(shop, wish)).toMatchObject({
      target: { id: 'board-1' },
      sideArms: [{ side: 'left' }, { side: 'right' }],
      work: 'careful',
    });
  });

  test.each(['fixtures', 'targets', 'sideArms', 'instruments'] as const)(
    'without %s there is none',
    (part) => {
      expect(equipmentOf({ ...shop, [part]: [] }, wish)).toBeUndefined();
    },
  );
});

describe('moves', () => {
  const moves = (() => {
    const held = heldAfter(movedIndex);
    const { answer } = placementView(held.job, cameraOf(held));
    invariant(answer.ok, 'solved');
    return { job: held.job, moves: answer.value.moves };
  })();

  test('Done opens the next set-up of the fixture and keeps what was asked', () => {
    const fact = movesDoneFact(moves.job, moves.moves);
    expect(fact.payload).toMatchObject({ body: 'fixture', setUp: 2, cause: 'moveDone' });
    expect(String(fact.payload.words)).toContain('Turn');
    expect(String(fact.payload.words).length).toBeLessThanOrEqual(2000);
    // The base was turned: nothing is kept, and the fact has no member for it.
    expect(Object.keys(fact.payload)).not.toContain('keeps');
  });

  test('Done after a raise alone says that the plan was kept', () => {
    const [raise] = moves.moves.filter((move) => move.kind === 'raise');
    invariant(raise !== undefined, 'a raise is asked for');
    const straight = { ...raise, keeps: ['plan', 'slide'] as const };
    expect(movesDoneFact(moves.job, [straight]).payload).toMatchObject({ keeps: ['plan', 'slide'] });
  });

  test('somebody’s bump opens one of the body that moved', () => {
    expect(movedFact(moves.job, 'car').payload).toMatchObject({ body: 'car', setUp: 2, cause: 'moved' });
  });

  test('in the list a move stands without what is read after it', () => {
    for (const move of moves.moves) {
      expect(moveAlone(move)).not.toMatch(/read/);
      expect(moveAlone(move)).toMatch(/\d/);
    }
  });
});

describe('two readings at each other’s side', () => {
  const held = heldAfter(readingIndex('base.R'));
  const view = placementView(held.job, cameraOf(held));
  const slots = slotsOf(held.job, SENSOR, view.recipe, 'datum');
  const slot = slots.find((each) => each.key === 'base.R');
  invariant(slot !== undefined, 'slot');

  test('are exchanged in one command: the old one struck, both recorded at their side', () => {
    const cure = { key: 'cure.exchange' as const, value: 2716.5, pairValue: 2708 };
    const facts = exchangeSides(held.job, slot, slots, cure, '2708,0', null);
    expect(facts?.map((fact) => fact.type)).toEqual(['readingStruck', 'readingRecorded', 'readingRecorded']);
    expect(facts?.[1]?.payload).toMatchObject({ quantity: 'base.R', value: 2716.5, text: '2716,5' });
    expect(facts?.[2]?.payload).toMatchObject({ quantity: 'base.L', value: 2708, text: '2708,0' });
  });

  test('any other cure is none of it', () => {
    expect(exchangeSides(held.job, slot, slots, { key: 'cure.take', value: 1 }, '', null)).toBeUndefined();
  });
});

describe('sign-off', () => {
  test('a finished job may be calibrated, or stopped honestly', () => {
    expect(kindsOf(assess(whole.job, answersOf(whole.job)))).toEqual(['calibrated', 'notCalibrated']);
  });

  test('the reason printed is the one picked, then the person’s own words', () => {
    const field = fieldById('signoff.stopReason')?.field;
    expect(field?.choices?.map((choice) => choice.value)).toContain('timeRanOut');
    const [plate] = Object.values(whole.job.fields);
    invariant(plate !== undefined, 'a field');
    const fields = {
      ...whole.job.fields,
      'signoff.stopReason': { ...plate, value: 'timeRanOut' },
      'signoff.stopWords': { ...plate, value: { personalId: 'p', commitment: '0'.repeat(64) } },
    };
    const held = { ...whole, job: { ...whole.job, fields } };
    expect(stopReason(held)).toBe('time ran out; Nils Breakwater');
    expect(stopReason(whole)).toBe('');
  });

  test('a missing reading is found at its slot', () => {
    const before = heldAfter(readingIndex('slide'));
    const { missing } = assess(before.job, answersOf(before.job));
    const slots = slotsOf(before.job, SENSOR, placementView(before.job, cameraOf(before)).recipe, 'stations');
    const keys = slots.map((slot) => readingFocusKey(slot.spec));
    const readings = missing.filter((each) => each.stage === 'stations' && each.key.startsWith('reading:'));
    expect(readings.length).toBeGreaterThan(0);
    for (const each of readings) expect(keys).toContain(each.key);
  });
});
