/**
 * Signs, worked out by hand: each case is one sentence that a person with a sketch can check. Lengths in mm, angles in
 * degrees here. ISO 8855: ahead, left and up positive; yaw positive turning left seen from above, pitch positive nose
 * down (the top goes ahead), roll positive left side up.
 */
import { describe, expect, test } from 'vitest';
import type { Coordinate } from '../../../core/frames.ts';
import type { Move, MoveKind } from '../../../core/placement/instruction.ts';
import type { PlacementInput } from '../../../core/placement/placementInput.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import type { Pose6, TrueLayout } from '../../../core/rehearsal/trueBay.ts';
import { thrustAngleRad } from '../../../core/vehicle/datum.ts';
import { say } from '../../../core/words/index.ts';
import { answerOf, deviationsOf } from './answers.ts';
import { CENTRE, inputOf, SQUARE } from './trueLayout.ts';

const DEG = Math.PI / 180;

interface Place {
  readonly station: StationRequirement;
  readonly near: 'ahead' | 'behind';
}

function placeOf(place: 'ahead' | 'behind', ahead: number, left: number, yawDeg: number): Place {
  const limit = { lower: -0.1, upper: 0.1, stated: true };
  const tight = { lower: -0.001, upper: 0.001, stated: true };
  return {
    near: place,
    station: {
      ...CENTRE,
      place,
      ahead: { value: ahead, from: 'rearAxle', permitted: limit },
      left: { value: left, from: 'centreline', permitted: limit },
      up: { ...CENTRE.up, permitted: limit },
      yaw: { value: yawDeg * DEG, from: 'centreline', permitted: tight },
      pitch: { ...CENTRE.pitch, permitted: tight },
      roll: { ...CENTRE.roll, permitted: tight },
    },
  };
}

const AHEAD = placeOf('ahead', 5000, 0, 180);
const BEHIND = placeOf('behind', -2600, 0, 0);
const FRONT_LEFT = placeOf('ahead', 4900, 900, 210);
const FRONT_RIGHT = placeOf('ahead', 4900, -900, 150);
const REAR_LEFT = placeOf('behind', -2700, 900, -30);
const REAR_RIGHT = placeOf('behind', -2700, -900, 30);

/** The layout whose target stands at a place, moved from it by the given amounts (angles in degrees, about the car's axes at the square places). */
function movedFrom(place: Place, by: Partial<Pose6>): TrueLayout {
  const { station } = place;
  return {
    ...SQUARE,
    target: {
      ahead: station.ahead.value + (by.ahead ?? 0),
      left: station.left.value + (by.left ?? 0),
      up: station.up.value + (by.up ?? 0),
      yaw: station.yaw.value + (by.yaw ?? 0) * DEG,
      pitch: (by.pitch ?? 0) * DEG,
      roll: (by.roll ?? 0) * DEG,
    },
  };
}

function inputAt(place: Place, by: Partial<Pose6> = {}): PlacementInput {
  return inputOf(movedFrom(place, by), [place.station], { near: place.near });
}

/** The same input with one reading's value or direction put in by hand. */
function withReading(
  input: PlacementInput,
  id: string,
  change: {
    readonly value?: number;
    readonly direction?: 'towardCar' | 'awayFromCar' | 'carLeftLow' | 'carRightLow';
  },
): PlacementInput {
  return {
    ...input,
    readings: input.readings.map((each) => (each.id === id ? { ...each, ...change } : each)),
  };
}

const deviation = (input: PlacementInput, coordinate: Coordinate): number => {
  const value = deviationsOf(answerOf(input))[coordinate];
  return coordinate === 'ahead' || coordinate === 'left' || coordinate === 'up' ? value : value / DEG;
};

function moveOf(input: PlacementInput, kind: MoveKind): Move {
  const { moves } = answerOf(input);
  const move = moves.find((each) => each.kind === kind);
  if (move === undefined) throw new Error(`no ${kind} among ${moves.map((each) => each.kind).join(', ')}`);
  return move;
}

const spoken = (input: PlacementInput, kind: MoveKind): string => {
  const move = moveOf(input, kind);
  return say(move.wordKey, move.values);
};

describe('deviations in the vehicle frame, found minus required', () => {
  test('a target ahead that stands 8 mm farther from the car deviates by +8 ahead', () => {
    expect(deviation(inputAt(AHEAD, { ahead: 8 }), 'ahead')).toBeCloseTo(8, 6);
  });
  test('a target behind that stands 8 mm farther from the car deviates by -8 ahead', () => {
    expect(deviation(inputAt(BEHIND, { ahead: -8 }), 'ahead')).toBeCloseTo(-8, 6);
  });
  test("a target ahead that stands 5 mm too far to the car's left deviates by +5 left", () => {
    expect(deviation(inputAt(AHEAD, { left: 5 }), 'left')).toBeCloseTo(5, 6);
  });
  test("a target behind that stands 5 mm too far to the car's right deviates by -5 left", () => {
    expect(deviation(inputAt(BEHIND, { left: -5 }), 'left')).toBeCloseTo(-5, 6);
  });
  test('a target 4 mm too high deviates by +4 up, ahead as well as behind', () => {
    expect(deviation(inputAt(AHEAD, { up: 4 }), 'up')).toBeCloseTo(4, 6);
    expect(deviation(inputAt(BEHIND, { up: 4 }), 'up')).toBeCloseTo(4, 6);
  });
  test("ahead of the car, a car's-left bar end nearer the car is a turn to the left: yaw +", () => {
    // From above the bar runs from (0, -1) to (0, 1); its left end goes toward -X when it turns left.
    expect(deviation(inputAt(AHEAD, { yaw: 0.5 }), 'yaw')).toBeCloseTo(0.5, 9);
    const { barEnds } = answerOf(inputAt(AHEAD, { yaw: 0.5 })).fixture ?? {};
    expect(barEnds?.carLeft.aheadMm).toBeLessThan(barEnds?.carRight.aheadMm ?? 0);
  });
  test("behind the car, a car's-left bar end farther from the car is a turn to the left: yaw +", () => {
    expect(deviation(inputAt(BEHIND, { yaw: 0.5 }), 'yaw')).toBeCloseTo(0.5, 9);
    const { barEnds } = answerOf(inputAt(BEHIND, { yaw: 0.5 })).fixture ?? {};
    expect(barEnds?.carLeft.aheadMm).toBeLessThan(barEnds?.carRight.aheadMm ?? 0);
  });
  test('ahead of the car, a top that leans away from the car goes ahead: pitch + (nose down)', () => {
    const input = withReading(inputAt(AHEAD), 'fixture.pitch', {
      value: 0.3 * DEG,
      direction: 'awayFromCar',
    });
    expect(deviation(input, 'pitch')).toBeCloseTo(0.3, 6);
  });
  test('ahead of the car, a top that leans toward the car is pitch -', () => {
    const input = withReading(inputAt(AHEAD), 'fixture.pitch', { value: 0.3 * DEG, direction: 'towardCar' });
    expect(deviation(input, 'pitch')).toBeCloseTo(-0.3, 6);
  });
  test('behind the car, a top that leans toward the car goes ahead: pitch +', () => {
    const input = withReading(inputAt(BEHIND), 'fixture.pitch', { value: 0.3 * DEG, direction: 'towardCar' });
    expect(deviation(input, 'pitch')).toBeCloseTo(0.3, 6);
  });
  test("a bar whose car's-left end is low rolls to the car's left: roll -, ahead of the car", () => {
    const input = withReading(inputAt(AHEAD), 'fixture.roll', { value: 0.2 * DEG, direction: 'carLeftLow' });
    expect(deviation(input, 'roll')).toBeCloseTo(-0.2, 5);
  });
  test("a bar whose car's-left end is low is roll - behind the car too", () => {
    const input = withReading(inputAt(BEHIND), 'fixture.roll', { value: 0.2 * DEG, direction: 'carLeftLow' });
    expect(deviation(input, 'roll')).toBeCloseTo(-0.2, 5);
  });
  test("a bar whose car's-right end is low is roll +", () => {
    const input = withReading(inputAt(AHEAD), 'fixture.roll', { value: 0.2 * DEG, direction: 'carRightLow' });
    expect(deviation(input, 'roll')).toBeCloseTo(0.2, 5);
  });
});

describe('the fixture frame and the vehicle frame', () => {
  test("ahead of the car the fixture's own pitch + (top out of the face) is pitch - of the car", () => {
    const layout = movedFrom(AHEAD, { pitch: 0.4 });
    const answer = answerOf(inputOf(layout, [AHEAD.station]));
    expect((answer.fixture?.target.pitchRad ?? 0) / DEG).toBeCloseTo(0.4, 9);
    expect(deviationsOf(answer).pitch / DEG).toBeCloseTo(-0.4, 9);
  });
  test("ahead of the car the fixture's own roll + (its Y end, the car's right, up) is roll - of the car", () => {
    const answer = answerOf(inputOf(movedFrom(AHEAD, { roll: 0.4 }), [AHEAD.station]));
    expect((answer.fixture?.target.rollRad ?? 0) / DEG).toBeCloseTo(0.4, 9);
    expect(deviationsOf(answer).roll / DEG).toBeCloseTo(-0.4, 9);
  });
  test('behind the car both frames have the same pitch and roll', () => {
    const input = inputOf(movedFrom(BEHIND, { pitch: 0.4, roll: -0.3 }), [BEHIND.station], {
      near: 'behind',
    });
    const answer = answerOf(input);
    expect(deviationsOf(answer).pitch / DEG).toBeCloseTo(0.4, 9);
    expect(deviationsOf(answer).roll / DEG).toBeCloseTo(-0.3, 9);
  });
  test('yaw is the same turn in both frames, wherever the target stands', () => {
    for (const place of [AHEAD, BEHIND, FRONT_LEFT, FRONT_RIGHT, REAR_LEFT, REAR_RIGHT]) {
      expect(deviation(inputAt(place, { yaw: -0.6 }), 'yaw')).toBeCloseTo(-0.6, 9);
    }
  });
  test('a corner target that stands at exactly 30 degrees deviates by nothing', () => {
    for (const place of [FRONT_LEFT, FRONT_RIGHT, REAR_LEFT, REAR_RIGHT]) {
      for (const value of Object.values(deviationsOf(answerOf(inputAt(place)))))
        expect(value).toBeCloseTo(0, 6);
    }
  });
  test("a front-left corner target leaning out of its face leans to the car's rear and right: pitch -, roll +", () => {
    // Its face looks along (-cos 30, -sin 30); the top goes that way: backward is pitch -, to the right is roll +.
    const input = inputAt(FRONT_LEFT, { pitch: 0.2 });
    expect(deviation(input, 'pitch')).toBeCloseTo(-0.2 * Math.cos(30 * DEG), 4);
    expect(deviation(input, 'roll')).toBeCloseTo(0.2 * Math.sin(30 * DEG), 4);
  });
  test("a rear-right corner target leaning out of its face leans to the car's front and left: pitch +, roll -", () => {
    const input = inputAt(REAR_RIGHT, { pitch: 0.2 });
    expect(deviation(input, 'pitch')).toBeCloseTo(0.2 * Math.cos(30 * DEG), 4);
    expect(deviation(input, 'roll')).toBeCloseTo(-0.2 * Math.sin(30 * DEG), 4);
  });
});

describe('moves as the person at the fixture sees them', () => {
  test('a target ahead that is 8 mm too far away is rolled toward the car', () => {
    expect(spoken(inputAt(AHEAD, { ahead: 8 }), 'roll')).toBe(
      'Roll the fixture 8.0 mm toward the car, then read again',
    );
  });
  test('a target ahead that is 8 mm too near is rolled away from the car', () => {
    expect(spoken(inputAt(AHEAD, { ahead: -8 }), 'roll')).toBe(
      'Roll the fixture 8.0 mm away from the car, then read again',
    );
  });
  test('a target behind that is 8 mm too far away (ahead -8) is rolled toward the car', () => {
    expect(spoken(inputAt(BEHIND, { ahead: -8 }), 'roll')).toBe(
      'Roll the fixture 8.0 mm toward the car, then read again',
    );
  });
  test("a target ahead 9 mm too far to the car's left is shifted to the car's right", () => {
    expect(spoken(inputAt(AHEAD, { left: 9 }), 'shift')).toBe(
      "Shift the fixture 9.0 mm to the car's right, then read again",
    );
  });
  test("a target behind 9 mm too far to the car's right is shifted to the car's left", () => {
    expect(spoken(inputAt(BEHIND, { left: -9 }), 'shift')).toBe(
      "Shift the fixture 9.0 mm to the car's left, then read again",
    );
  });
  test('a target 12 mm too low is raised, one 12 mm too high is lowered', () => {
    expect(spoken(inputAt(AHEAD, { up: -12 }), 'raise')).toBe('Raise the target 12 mm, then read its height');
    expect(spoken(inputAt(BEHIND, { up: 12 }), 'raise')).toBe('Lower the target 12 mm, then read its height');
  });
  test("ahead, a bar with its car's-left end 10 mm too near (yaw +) has that end turned away from the car", () => {
    const input = inputAt(AHEAD, { yaw: Math.asin(10 / 1000) / DEG });
    expect(spoken(input, 'turn')).toBe("Turn: car's-left end 10 mm away from the car, then read again");
  });
  test("ahead, a bar with its car's-left end 10 mm too far (yaw -) has that end turned toward the car", () => {
    const input = inputAt(AHEAD, { yaw: -Math.asin(10 / 1000) / DEG });
    expect(spoken(input, 'turn')).toBe("Turn: car's-left end 10 mm toward the car, then read again");
  });
  test("behind, a bar turned to the left (yaw +) has its car's-left end too far and turned toward the car", () => {
    const input = inputAt(BEHIND, { yaw: Math.asin(10 / 1000) / DEG });
    expect(spoken(input, 'turn')).toBe("Turn: car's-left end 10 mm toward the car, then read again");
  });
  test('a top that leans toward the car by 0.5 degrees at 1350 mm is leaned 12 mm away, ahead and behind', () => {
    for (const place of [AHEAD, BEHIND]) {
      const input = withReading(inputAt(place), 'fixture.pitch', {
        value: 0.5 * DEG,
        direction: 'towardCar',
      });
      expect(spoken(input, 'lean')).toBe('Lean the top 12 mm away from the car, then read again');
    }
  });
  test('a top that leans away from the car is leaned toward it', () => {
    const input = withReading(inputAt(BEHIND), 'fixture.pitch', {
      value: 0.5 * DEG,
      direction: 'awayFromCar',
    });
    expect(spoken(input, 'lean')).toBe('Lean the top 12 mm toward the car, then read again');
  });
  test("a car's-left end that is low is raised by half the bar times the tilt, ahead and behind", () => {
    for (const place of [AHEAD, BEHIND]) {
      const input = withReading(inputAt(place), 'fixture.roll', {
        value: 0.5 * DEG,
        direction: 'carLeftLow',
      });
      expect(spoken(input, 'level')).toBe("Raise the car's-left bar end 8.7 mm, then read again");
    }
  });
  test("a car's-right end that is low has the car's-left end lowered", () => {
    const input = withReading(inputAt(AHEAD), 'fixture.roll', { value: 0.5 * DEG, direction: 'carRightLow' });
    expect(spoken(input, 'level')).toBe("Lower the car's-left bar end 8.7 mm, then read again");
  });
  test('a corner target too far out along its face is rolled toward the car along its face, and not shifted', () => {
    for (const place of [FRONT_LEFT, FRONT_RIGHT, REAR_LEFT, REAR_RIGHT]) {
      const heading = place.station.yaw.value;
      const input = inputAt(place, { ahead: -20 * Math.cos(heading), left: -20 * Math.sin(heading) });
      expect(spoken(input, 'roll')).toBe('Roll the fixture 20 mm toward the car, then read again');
      expect(answerOf(input).moves.map((move) => move.kind)).toEqual(['roll']);
    }
  });
  test("a corner target too far along its bar to the car's left is shifted to the car's right, and not rolled", () => {
    for (const place of [FRONT_LEFT, REAR_LEFT]) {
      const heading = place.station.yaw.value;
      const side = Math.cos(heading) > 0 ? 1 : -1;
      const input = inputAt(place, {
        ahead: -20 * side * Math.sin(heading),
        left: 20 * side * Math.cos(heading),
      });
      expect(spoken(input, 'shift')).toBe("Shift the fixture 20 mm to the car's right, then read again");
      expect(answerOf(input).moves.map((move) => move.kind)).toEqual(['shift']);
    }
  });
});

describe('the lines a station is measured from', () => {
  const toThrust: StationRequirement = {
    ...AHEAD.station,
    left: { ...AHEAD.station.left, from: 'thrustLine' },
    yaw: { ...AHEAD.station.yaw, from: 'thrustLine' },
  };
  const crabbing: TrueLayout = { ...SQUARE, toeLeft: -0.1 * DEG, toeRight: 0.1 * DEG };

  test("rear wheels that both point to the car's left (left toe-out, right toe-in) make a thrust angle +", () => {
    expect(thrustAngleRad(-0.1 * DEG, 0.1 * DEG) / DEG).toBeCloseTo(0.1, 12);
    const answer = answerOf(inputOf(crabbing, [toThrust]));
    expect((answer.vehicle?.thrustLine?.angle.value ?? 0) / DEG).toBeCloseTo(0.1, 9);
  });
  test("a target on the centreline is 8.7 mm to the right of a thrust line that runs 0.1 degrees to the car's left", () => {
    expect(deviation(inputOf(crabbing, [toThrust]), 'left')).toBeCloseTo(-5000 * Math.sin(0.1 * DEG), 6);
  });
  test('square to the centreline is 0.1 degrees to the right of square to that thrust line: yaw -', () => {
    expect(deviation(inputOf(crabbing, [toThrust]), 'yaw')).toBeCloseTo(-0.1, 9);
  });
  test('from the front axle the same target is the wheelbase nearer', () => {
    const fromFront: StationRequirement = { ...AHEAD.station, ahead: { value: 2350, from: 'frontAxle' } };
    expect(deviation(inputOf(SQUARE, [fromFront]), 'ahead')).toBeCloseTo(0, 6);
  });
  test('from the body face, a target 1510 mm before it is 10 mm too far for a station at 1500 mm', () => {
    const fromFace: StationRequirement = { ...AHEAD.station, ahead: { value: 1500, from: 'bodyFace' } };
    const layout = { ...SQUARE, target: { ...SQUARE.target, ahead: 5010 } };
    expect(deviation(inputOf(layout, [fromFace]), 'ahead')).toBeCloseTo(10, 6);
  });
});

describe('gravity and the floor', () => {
  test('where the staff reads more the floor is lower: front marks that read 10 mm more put the nose down', () => {
    const input = inputAt(AHEAD);
    const lower = {
      ...input,
      readings: input.readings.map((each) =>
        each.id === 'floor.FL' || each.id === 'floor.FR' ? { ...each, value: each.value + 10 } : each,
      ),
    };
    // The tape along the floor stays the same, so its level length is a hair shorter.
    expect(answerOf(lower).vehicle?.slopeAheadRad).toBeCloseTo(-Math.asin(10 / 2650), 6);
  });
  test("where the staff reads less under the car's left wheels the car stands left side up: slope left +", () => {
    const input = inputAt(AHEAD);
    const raised = {
      ...input,
      readings: input.readings.map((each) =>
        each.id === 'floor.FL' || each.id === 'floor.RL' ? { ...each, value: each.value - 8 } : each,
      ),
    };
    expect(answerOf(raised).vehicle?.slopeLeftRad).toBeGreaterThan(0);
  });
  test('beside a car that stands nose up by 0.5 %, a plumb target ahead leans away from it: pitch +', () => {
    const slope = Math.atan(0.005);
    const layout: TrueLayout = {
      ...SQUARE,
      floorSlope: [0.005, 0],
      target: { ...SQUARE.target, pitch: -slope },
    };
    const input = inputOf(layout, [AHEAD.station]);
    expect(input.readings.find((each) => each.id === 'fixture.pitch')?.value).toBeCloseTo(0, 9);
    expect(deviationsOf(answerOf(input)).pitch).toBeCloseTo(slope, 9);
  });
});
