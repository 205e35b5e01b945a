import { describe, expect, test } from 'vitest';
import { splitTapeClass } from '../../../core/placement/defaults.ts';
import {
  differenceU,
  distanceMeter,
  instrumentU,
  plumbBob,
  reversed,
  rotatingLaser,
  ruleInstrument,
  tapeInstrument,
  tiltAfterReversal,
  tiltInstrument,
} from '../../../core/uncertainty/instruments.ts';
import { drawsFrom } from '../../simulation/draws.ts';

describe('tapes of the EU classes', () => {
  test.each([
    ['I', 0.6],
    ['II', 1.3],
    ['III', 2.6],
  ] as const)(
    'class %s at 4.3 m: the whole is the class limit %d / root 3, and the step',
    (tapeClass, limit) => {
      const u = instrumentU('tape', tapeInstrument(tapeClass, 4300, { stepMm: 1 }), 4300).u;
      expect(u).toBeCloseTo(Math.hypot(limit / Math.sqrt(3), 1 / Math.sqrt(12)), 9);
    },
  );

  test('class II: 0.1155 mm per metre is one scale, a hook 0.1155 mm once for all readings', () => {
    const { perUnit, offset } = tapeInstrument('II', 3000, { hook: true });
    expect(perUnit * 1000).toBeCloseTo(0.115470054, 8);
    expect(offset).toBeCloseTo(0.115470054, 8);
    expect(tapeInstrument('II', 3000).offset).toBe(0);
  });

  test('is split as placement splits it', () => {
    const { scale, ownMm } = splitTapeClass('II', 2650);
    const found = tapeInstrument('II', 2650, { stepMm: 0 });
    expect(found.perUnit).toBeCloseTo(scale, 12);
    expect(found.own).toBeCloseTo(ownMm, 12);
  });

  test('in a difference of two lengths the hook is gone and little is left of the scale', () => {
    const tape = tapeInstrument('II', 2500, { hook: true });
    expect(differenceU(tape, 2500, 2500)).toBeCloseTo(Math.SQRT2 * tape.own, 12);
    const wide = differenceU(tape, 5000, 2500);
    expect(wide * wide - 2 * tape.own * tape.own).toBeCloseTo((tape.perUnit * 2500) ** 2, 12);
  });
});

test('a steel rule of class I over 300 mm with half millimetres: 0.2 / root 3 and 0.5 / root 12', () => {
  expect(ruleInstrument('I', 300).own).toBeCloseTo(Math.hypot(0.2 / Math.sqrt(3), 0.5 / Math.sqrt(12)), 12);
});

test('a distance meter of 2 mm and 0.1 mm per metre with k = 2: 1 mm zero, 0.05 mm per metre, its step', () => {
  const meter = distanceMeter({ mm: 2, perMetreMm: 0.1 });
  expect(meter).toEqual({ own: 1 / Math.sqrt(12), offset: 1, perUnit: 5e-5 });
  expect(instrumentU('meter', meter, 5000).u).toBeCloseTo(Math.sqrt(1 / 12 + 1 + 0.0625), 12);
  // Two distances of one meter: the zero goes.
  expect(differenceU(meter, 5000, 3000)).toBeCloseTo(Math.sqrt(2 / 12 + 0.01), 12);
  expect(() => distanceMeter({ mm: 2, k: 0 })).toThrow(/k is positive/);
});

describe('tilts', () => {
  const meter = tiltInstrument(1e-3, 2e-4, 1e-4);

  test('the limit is a zero in all readings; step and seat are new each time', () => {
    expect(meter.offset).toBeCloseTo(1e-3 / Math.sqrt(3), 12);
    expect(meter.own).toBeCloseTo(Math.hypot(2e-4 / Math.sqrt(12), 1e-4), 12);
  });

  test('1.2 and -0.8: tilt 1.0, zero 0.2; the zero leaves the uncertainty', () => {
    const found = reversed(1.2e-3, -0.8e-3, meter);
    expect(found.tilt).toBeCloseTo(1e-3, 12);
    expect(found.zero).toBeCloseTo(2e-4, 12);
    expect(found.u).toBeLessThan(instrumentU('tilt', meter, 0).u / 3);
  });

  test('0.05 degrees of which 0.03 are kept leave 0.04 to the repeats; a kept part above the whole is a bug', () => {
    expect(tiltAfterReversal(5e-4, 3e-4).repeatRad).toBeCloseTo(4e-4, 15);
    expect(tiltAfterReversal(5e-4, 0)).toEqual({ repeatRad: 5e-4, keptRad: 0 });
    expect(tiltAfterReversal(5e-4, 5e-4).repeatRad).toBe(0);
    expect(() => tiltAfterReversal(3e-4, 5e-4)).toThrow('kept part');
  });

  test('simulated: a seat that is off stays in the mean of many reversals, and the split says by how much', () => {
    const draws = drawsFrom(11);
    const { repeatRad, keptRad } = tiltAfterReversal(5e-4, 3e-4);
    const [runs, repeats] = [3000, 9];
    let squares = 0;
    for (let i = 0; i < runs; i++) {
      const seat = keptRad * draws.normal();
      const zero = 0.01 * draws.normal();
      let sum = 0;
      for (let r = 0; r < repeats; r++) {
        const one = (way: number): number =>
          zero + way * (4e-3 + seat) + Math.SQRT2 * repeatRad * draws.normal();
        sum += reversed(one(1), one(-1), meter).tilt - 4e-3;
      }
      squares += (sum / repeats) * (sum / repeats);
    }
    const u = Math.hypot(keptRad, repeatRad / 3);
    expect(Math.abs(Math.sqrt(squares / runs) / u - 1)).toBeLessThan(4 / Math.sqrt(2 * runs));
  });

  test('simulated: reversal gives the tilt whatever the zero, with the u it says', () => {
    const draws = drawsFrom(3);
    const tilt = 4e-3;
    let squares = 0;
    const runs = 4000;
    for (let i = 0; i < runs; i++) {
      const zero = draws.withinLimits(meter.offset);
      const read = (way: number): number => zero + way * tilt + meter.own * draws.normal();
      const off = reversed(read(1), read(-1), meter).tilt - tilt;
      squares += off * off;
    }
    const { u } = reversed(0, 0, meter);
    expect(Math.abs(Math.sqrt(squares / runs) / u - 1)).toBeLessThan(4 / Math.sqrt(2 * runs));
  });
});

test('a plumb bob: string 1 mm, tip 0.5 mm, swing 1 mm per metre over 0.6 m', () => {
  const bob = plumbBob({ stringMm: 1, tipLimitMm: 0.5, swingPerMetreMm: 1, dropMm: 600 });
  expect(bob.own).toBeCloseTo(Math.sqrt((0.25 + 0.25 + 0.36) / 3), 12);
  expect(plumbBob({ stringMm: 1, tipLimitMm: 0.5, swingPerMetreMm: 1, dropMm: 1400 }).own).toBeGreaterThan(
    bob.own,
  );
});

test('a rotating laser of 0.2 mm per metre: far and near differ by its slope, equally far ones do not', () => {
  const laser = rotatingLaser({ limitMmPerM: 0.2, stepMm: 1, beamMm: 4 });
  expect(laser.perUnit).toBeCloseTo(0.2e-3 / Math.sqrt(3), 12);
  expect(laser.own).toBeCloseTo(Math.hypot(1 / Math.sqrt(12), 2 / Math.sqrt(3)), 12);
  expect(differenceU(laser, 4000, 4000)).toBeCloseTo(Math.SQRT2 * laser.own, 12);
  const slope = (laser.perUnit * 5000) ** 2;
  expect(differenceU(laser, 6000, 1000) ** 2 - 2 * laser.own ** 2).toBeCloseTo(slope, 12);
});
