/**
 * A true layout is turned into readings by `trueLayout.ts`, which knows nothing of the solver, and must come back. Without
 * noise the only difference left is arithmetic: 1e-6 mm and 1e-9 rad.
 */
import { describe, expect, test } from 'vitest';
import type { PlacementEquipment } from '../../../core/placement/equipment.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import { type Pose6, type TrueLayout, worldOf } from '../../../core/rehearsal/trueBay.ts';
import { answerOf, deviationsOf, stationOf } from './answers.ts';
import { CENTRE, EQUIPMENT, inputOf, SLIDES, SQUARE } from './trueLayout.ts';

const DEG = Math.PI / 180;

function expectPose(
  layout: TrueLayout,
  stations = [CENTRE],
  near: 'ahead' | 'behind' = 'ahead',
  equipment = EQUIPMENT,
) {
  const answer = answerOf(inputOf(layout, stations, { near, equipment }));
  const { target } = stationOf(answer);
  expect(target.aheadMm).toBeCloseTo(layout.target.ahead, 6);
  expect(target.leftMm).toBeCloseTo(layout.target.left, 6);
  expect(target.upMm).toBeCloseTo(layout.target.up, 6);
  // Angles through the fixture's axes, so that a heading of minus half a turn equals one of plus half a turn.
  expect(Math.cos(target.yawRad - layout.target.yaw)).toBeCloseTo(1, 12);
  expect(Math.sin(target.yawRad - layout.target.yaw)).toBeCloseTo(0, 9);
  expect(target.pitchRad).toBeCloseTo(layout.target.pitch, 9);
  expect(target.rollRad).toBeCloseTo(layout.target.roll, 9);
  return answer;
}

const off = (change: Partial<Pose6>): TrueLayout => ({ ...SQUARE, target: { ...SQUARE.target, ...change } });

/** Nothing is square: turned car, sloping floors, unequal tracks, wheelbases, arms and hub heights, a fixture off in all six. */
const CROOKED: TrueLayout = {
  carAt: [1234, -567],
  carHeading: 37 * DEG,
  floorSlope: [0.008, -0.012],
  hubs: { FL: [2655, 792, 321], FR: [2645, -792, 316], RL: [4, 770, 309], RR: [-4, -770, 312] },
  armLeft: 276.5,
  armRight: 281.25,
  beyondAhead: 1010,
  beyondBehind: 870,
  face: [3460, 12, 540],
  toeLeft: 0.11 * DEG,
  toeRight: -0.07 * DEG,
  target: { ahead: 5012, left: -14, up: 1357, yaw: 181.2 * DEG, pitch: 0.6 * DEG, roll: -0.9 * DEG },
  fixtureFloor: [3.5, -0.011, 0.006],
};
const CROOKED_EQUIPMENT: PlacementEquipment = {
  ...EQUIPMENT,
  sideArms: { left: { mm: 276.5, uMm: 0.3 }, right: { mm: 281.25, uMm: 0.3 } },
  fixture: { barLength: { mm: 1873, uMm: 0.4 }, face: { outMm: 95, acrossMm: 7, upMm: -120, uMm: 0.5 } },
};

describe('a layout comes back from its readings', () => {
  test('a square one on a level floor', () => {
    const answer = expectPose(SQUARE);
    expect(answer.stage).toBe('fixture');
    expect(answer.worst).toBe('proven');
    expect(answer.moves).toEqual([]);
    expect(answer.problems).toEqual([]);
  });

  test('one that is off in all six coordinates', () => {
    expectPose(
      off({ ahead: 5021, left: 17, up: 1341, yaw: 178.8 * DEG, pitch: -0.7 * DEG, roll: 0.4 * DEG }),
    );
  });

  test('one with nothing square on sloping floors', () => {
    const answer = expectPose(CROOKED, [CENTRE], 'ahead', CROOKED_EQUIPMENT);
    expect(answer.globalTest?.chiSquare).toBeLessThan(1e-12);
    expect(answer.suspects).toEqual([]);
    expect(answer.vehicle?.wheelbase.value).toBeCloseTo(2650, 6);
    expect(answer.vehicle?.bodyFaceAheadMm).toBeCloseTo(3460, 0);
  });

  test('a target behind the car, measured from the points behind', () => {
    const behind: StationRequirement = {
      ...CENTRE,
      place: 'behind',
      ahead: { value: -2600, from: 'rearAxle' },
      yaw: { value: 0, from: 'centreline' },
    };
    const target = { ahead: -2590, left: 6, up: 1350, yaw: 0.5 * DEG, pitch: 0.3 * DEG, roll: -0.2 * DEG };
    expectPose({ ...SQUARE, target }, [behind], 'behind');
    expectPose({ ...CROOKED, target }, [behind], 'behind', CROOKED_EQUIPMENT);
  });

  test('corner targets that stand at 30 degrees, at all four corners', () => {
    const corners = [
      { ahead: 4900, left: 900, yaw: 210, place: 'ahead', near: 'ahead' },
      { ahead: 4900, left: -900, yaw: 150, place: 'ahead', near: 'ahead' },
      { ahead: -2700, left: 900, yaw: -30, place: 'behind', near: 'behind' },
      { ahead: -2700, left: -900, yaw: 30, place: 'behind', near: 'behind' },
    ] as const;
    for (const { ahead, left, yaw, place, near } of corners) {
      const station: StationRequirement = {
        ...CENTRE,
        place,
        ahead: { value: ahead, from: 'rearAxle' },
        left: { value: left, from: 'centreline' },
        yaw: { value: yaw * DEG, from: 'centreline' },
      };
      const target = {
        ahead: ahead + 4,
        left: left - 7,
        up: 1352,
        yaw: (yaw + 0.4) * DEG,
        pitch: 0.2 * DEG,
        roll: 0.1 * DEG,
      };
      expectPose({ ...SQUARE, target }, [station], near);
    }
  });

  test('a bar that stands nearer than the points ahead', () => {
    const near: StationRequirement = { ...CENTRE, ahead: { value: 4200, from: 'rearAxle' } };
    expectPose({ ...SQUARE, beyondAhead: 2200, target: { ...SQUARE.target, ahead: 4206, left: 3 } }, [near]);
  });

  test('with any one of the eight lengths that only add control left out', () => {
    for (const id of [
      'width.ahead',
      'width.behind',
      'diagonal.LR',
      'diagonal.RL',
      'bar.sameL',
      'bar.sameR',
      'bar.diagLR',
      'bar.diagRL',
    ]) {
      const answer = answerOf(inputOf(CROOKED, [CENTRE], { equipment: CROOKED_EQUIPMENT, leaveOut: [id] }));
      expect(stationOf(answer).target.aheadMm, id).toBeCloseTo(5012, 5);
      expect(stationOf(answer).target.leftMm, id).toBeCloseTo(-14, 5);
      expect(
        answer.missing.map((slot) => slot.id),
        id,
      ).toEqual([id]);
    }
  });
});

describe('slide stations', () => {
  const slid: TrueLayout = {
    ...CROOKED,
    slides: { west: { towardCarLeft: 561.5, sag: 1.5 }, east: { towardCarLeft: -537.25, sag: 2.25 } },
  };

  test('are found where slide, sag and the bar together put them', () => {
    const answer = answerOf(inputOf(slid, [CENTRE, ...SLIDES], { equipment: CROOKED_EQUIPMENT }));
    const world = worldOf(slid, CROOKED_EQUIPMENT);
    for (const [station, { towardCarLeft, sag }] of Object.entries(slid.slides ?? {})) {
      const [lx, ly, lz] = world.points['barEnd.carLeft'] ?? [0, 0, 0];
      const [rx, ry, rz] = world.points['barEnd.carRight'] ?? [0, 0, 0];
      const [tx, ty, tz] = world.target;
      const share = towardCarLeft / CROOKED_EQUIPMENT.fixture.barLength.mm;
      const slidTo = [tx + share * (lx - rx), ty + share * (ly - ry), tz + share * (lz - rz) - sag] as const;
      const [ahead, left, up] = world.toCar(slidTo);
      const found = stationOf(answer, station);
      expect(found.basis).toBe('found');
      expect(found.target.aheadMm).toBeCloseTo(ahead, 6);
      expect(found.target.leftMm).toBeCloseTo(left, 6);
      expect(found.target.upMm).toBeCloseTo(up, 6);
    }
  });

  test('ask for a slide reading that takes off what the bar itself is off by', () => {
    const shifted = off({ left: 12 });
    const answer = answerOf(inputOf(shifted, [CENTRE, ...SLIDES]));
    expect(stationOf(answer, 'west').basis).toBe('expected');
    expect(stationOf(answer, 'west').slide?.side).toBe('carLeft');
    expect(stationOf(answer, 'west').slide?.setMm).toBeCloseTo(538, 6);
    expect(stationOf(answer, 'east').slide?.side).toBe('carRight');
    expect(stationOf(answer, 'east').slide?.setMm).toBeCloseTo(562, 6);
  });

  test('set to that reading, are where they must be sideways', () => {
    const shifted = { ...off({ left: 12, yaw: 180.4 * DEG }) };
    const asked = answerOf(inputOf(shifted, [CENTRE, ...SLIDES]));
    const west = stationOf(asked, 'west').slide?.setMm ?? 0;
    const east = stationOf(asked, 'east').slide?.setMm ?? 0;
    const slides = { west: { towardCarLeft: west, sag: 0 }, east: { towardCarLeft: -east, sag: 0 } };
    const answer = answerOf(inputOf({ ...shifted, slides }, [CENTRE, ...SLIDES]));
    expect(deviationsOf(answer, 'west').left).toBeCloseTo(0, 6);
    expect(deviationsOf(answer, 'east').left).toBeCloseTo(0, 6);
  });
});
