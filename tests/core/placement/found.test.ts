/** What an answer says beside the deviations: the car and its lines, the fixture, residuals, free coordinates, repeats. */
import { describe, expect, test } from 'vitest';
import { defaultUncertainties } from '../../../core/placement/defaults.ts';
import type { PlacementReading } from '../../../core/placement/placementReading.ts';
import { repeatability, slotValues, spreadFindings } from '../../../core/placement/readings.ts';
import { defaultRecipe } from '../../../core/placement/recipe.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import type { TrueLayout } from '../../../core/rehearsal/trueBay.ts';
import { answerOf, coordinateOf, stationOf } from './answers.ts';
import { CENTRE, inputOf, SQUARE } from './trueLayout.ts';

const DEG = Math.PI / 180;

describe('the car as found', () => {
  const uneven: TrueLayout = {
    ...SQUARE,
    hubs: { FL: [2655, 785, 318], FR: [2645, -785, 318], RL: [3, 770, 316], RR: [-3, -770, 316] },
    floorSlope: [0.006, -0.003],
    toeLeft: 0.05 * DEG,
    toeRight: 0.25 * DEG,
  };
  const car = answerOf(inputOf(uneven)).vehicle;

  test('has its wheelbase between axle midpoints and its tracks between hubs', () => {
    expect(car?.wheelbase.value).toBeCloseTo(2650, 6);
    expect(car?.trackFront.value).toBeCloseTo(Math.hypot(1570, 10), 6);
    expect(car?.trackRear.value).toBeCloseTo(Math.hypot(1540, 6), 6);
    expect(car?.frontAxleAheadMm).toBeCloseTo(2650, 6);
  });
  test('has every point in its own frame, the hubs over their floor and the marks on it', () => {
    expect(car?.points['hub.FL']?.aheadMm).toBeCloseTo(2655, 6);
    expect(car?.points['hub.FL']?.leftMm).toBeCloseTo(785, 6);
    expect(car?.points['hub.FL']?.upMm).toBeCloseTo(318, 6);
    expect(car?.points['mark.RR']?.upMm).toBeCloseTo(0, 6);
    expect(car?.points['ahead.L']?.upMm).toBeCloseTo(0, 6);
    expect(Object.keys(car?.points ?? {})).toHaveLength(4 + 4 + 4 + 1);
  });
  test('has the slopes of its floor, and no warp where the floor is a plane', () => {
    expect(car?.slopeAheadRad).toBeCloseTo(Math.atan(0.006), 6);
    expect(car?.slopeLeftRad).toBeCloseTo(-Math.atan(0.003), 6);
    for (const warp of Object.values(car?.warpMm ?? {})) expect(warp).toBeCloseTo(0, 6);
  });
  test('one wheel in a dip of 8 mm: it lies 2 mm below the common plane, and so does the wheel across, the others above', () => {
    const input = inputOf(SQUARE);
    const readings = input.readings.map((each) =>
      each.id === 'floor.FL' ? { ...each, value: each.value + 8 } : each,
    );
    const warp = answerOf({ ...input, readings }).vehicle?.warpMm;
    expect(warp?.FL).toBeCloseTo(-2, 1);
    expect(warp?.RR).toBeCloseTo(-2, 1);
    expect(warp?.FR).toBeCloseTo(2, 1);
    expect(warp?.RL).toBeCloseTo(2, 1);
  });
  test('has a thrust line 0.1 degrees to its left that differs, and one of 0.02 that does not', () => {
    expect((car?.thrustLine?.angle.value ?? 0) / DEG).toBeCloseTo(0.1, 9);
    // Two toes of u 0.03 degrees: U of half their difference is 2 x 0.0212.
    expect((car?.thrustLine?.expandedRad ?? 0) / DEG).toBeCloseTo(0.0424, 4);
    expect(car?.thrustLine?.differs).toBe(true);
    const slight = answerOf(inputOf({ ...SQUARE, toeLeft: 0.05 * DEG, toeRight: 0.09 * DEG })).vehicle
      ?.thrustLine;
    expect(slight?.differs).toBe(false);
  });
  test('the body face is where the face is, not where its plumb line met the floor', () => {
    // Rising 0.6 % ahead, a plumb line of 520 mm meets the floor 3.1 mm behind the foot of the normal.
    expect(car?.bodyFaceAheadMm).toBeCloseTo(3500, 1);
    expect(car?.points.bodyFace?.upMm).toBeCloseTo(520, 1);
  });
});

describe('the fixture as found', () => {
  test('has its bar behind its face and its ends half a bar to either side', () => {
    const fixture = answerOf(inputOf(SQUARE)).fixture;
    expect(fixture?.bar.aheadMm).toBeCloseTo(5080, 6);
    expect(fixture?.bar.upMm).toBeCloseTo(1200, 6);
    expect(fixture?.barEnds.carLeft.leftMm).toBeCloseTo(1000, 6);
    expect(fixture?.barEnds.carRight.leftMm).toBeCloseTo(-1000, 6);
    expect(fixture?.target.aheadMm).toBeCloseTo(5000, 6);
  });
  test('has the covariance that its placed station has', () => {
    const answer = answerOf(inputOf(SQUARE));
    stationOf(answer).covariance.forEach((row, i) => {
      row.forEach((value, j) => {
        expect(answer.fixture?.covariance[i]?.[j]).toBeCloseTo(value, 12);
      });
    });
    expect(Math.sqrt(answer.fixture?.covariance[1]?.[1] ?? 0)).toBeCloseTo(coordinateOf(answer, 'left').u, 9);
  });
});

describe('coordinates of a station', () => {
  test('a free one is found and not judged', () => {
    const freeYaw: StationRequirement = { ...CENTRE, free: ['yaw'] };
    const layout = { ...SQUARE, target: { ...SQUARE.target, yaw: SQUARE.target.yaw + 5 * DEG } };
    const answer = answerOf(inputOf(layout, [freeYaw]));
    const yaw = coordinateOf(answer, 'yaw');
    expect(yaw.verdict).toBe('notJudged');
    expect(yaw.permitted).toBeUndefined();
    expect(yaw.deviation / DEG).toBeCloseTo(5, 6);
    expect(answer.worst).toBe('proven');
  });
  test('are told with their datum, and found is required plus deviation', () => {
    const station: StationRequirement = {
      ...CENTRE,
      ahead: { value: 2345, from: 'frontAxle' },
      left: { value: -3, from: 'thrustLine' },
    };
    const answer = answerOf(inputOf(SQUARE, [station]));
    expect(coordinateOf(answer, 'ahead')).toMatchObject({ datum: 'frontAxle', required: 2345 });
    expect(coordinateOf(answer, 'ahead').found).toBeCloseTo(2350, 6);
    expect(coordinateOf(answer, 'left')).toMatchObject({ datum: 'thrustLine', required: -3 });
    for (const each of stationOf(answer).coordinates) {
      expect(each.found).toBeCloseTo(each.required + each.deviation, 12);
      expect(each.U).toBeCloseTo(each.k * each.u, 12);
    }
  });
  test('pitch and roll are required as zero, the turn as the heading of the face', () => {
    const answer = answerOf(inputOf(SQUARE));
    expect(coordinateOf(answer, 'pitch').required).toBe(0);
    expect(coordinateOf(answer, 'roll').required).toBe(0);
    expect(coordinateOf(answer, 'yaw').required).toBeCloseTo(Math.PI, 12);
  });
});

describe('residuals and repeats', () => {
  test('an answer lists every reading that entered, with its control by the others', () => {
    const { diagnostics } = answerOf(inputOf(SQUARE));
    const ids = new Set(diagnostics.residuals.map((each) => each.readingId));
    for (const id of [
      'base.L',
      'diagonal.RL',
      'bar.sameR',
      'target.height',
      'fixture.roll',
      'floor.RR',
      'drop.FL',
    ]) {
      expect(ids).toContain(id);
    }
    for (const each of diagnostics.residuals) {
      expect(each.redundancy).toBeGreaterThanOrEqual(-1e-9);
      expect(each.redundancy).toBeLessThanOrEqual(1 + 1e-9);
      expect(Math.abs(each.residual)).toBeLessThan(1e-6);
    }
    expect(diagnostics.redundancy).toBeGreaterThanOrEqual(2);
  });
  test('the mean of repeats stands for them, signed by the way each went', () => {
    const reading = (
      value: number,
      direction: 'towardCar' | 'awayFromCar',
      ref: string,
    ): PlacementReading => ({
      ref,
      id: 'fixture.pitch',
      purpose: 'proof',
      value,
      direction,
      carSetUp: 1,
      fixtureSetUp: 1,
    });
    const input = inputOf(SQUARE);
    const values = slotValues([reading(0.004, 'awayFromCar', 'a'), reading(0.001, 'towardCar', 'b')], input);
    expect(values.get('fixture.pitch')).toMatchObject({ count: 2, direction: 'awayFromCar' });
    expect(values.get('fixture.pitch')?.value).toBeCloseTo(0.0015, 12);
  });
  test('every kind of reading has a spread it is held against', () => {
    const work = defaultUncertainties.byWork.typical;
    for (const spec of defaultRecipe()) expect(repeatability(spec, work), spec.id).toBeGreaterThan(0);
    expect(spreadFindings(defaultRecipe(), inputOf(SQUARE).readings, work)).toEqual([]);
  });
});
