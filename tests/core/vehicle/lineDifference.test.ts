import { describe, expect, test } from 'vitest';
import { radFromDeg } from '../../../core/units.ts';
import { centrelineFromHubs, sideKnowledge } from '../../../core/vehicle/datumLine.ts';
import { independentPlaces } from '../../../core/vehicle/knownPlaces.ts';
import {
  differenceAtMm,
  headingOf,
  lineDifference,
  thrustLineFromReport,
} from '../../../core/vehicle/lineDifference.ts';
import { differenceSentence } from '../../../core/vehicle/lineWords.ts';
import { say, wordFaults } from '../../../core/words/index.ts';

const heading = (degrees: number, u: number, dof = Number.POSITIVE_INFINITY) => ({
  headingRad: radFromDeg(degrees),
  uRad: radFromDeg(u),
  dof,
});

describe('whether two lines differ', () => {
  test('0.15 deg between lines of 0.03 and 0.04: U is 0.10, they differ; 0.09 would not', () => {
    const found = lineDifference(heading(1, 0.03), heading(1.15, 0.04));
    expect(found.angleRad).toBeCloseTo(radFromDeg(0.15), 12);
    expect(found.uRad).toBeCloseTo(radFromDeg(0.05), 12);
    expect(found.expandedRad).toBeCloseTo(radFromDeg(0.1), 6);
    expect(found.differs).toBe(true);
    // Three standard deviations, two-sided: 0.0027 (JCGM 100:2008 Table G.1, 99.73 %).
    expect(found.probability).toBeCloseTo(0.0026998, 6);
    expect(differenceAtMm(found, 5000)).toBeCloseTo(13.09, 2);
    expect(lineDifference(heading(1, 0.03), heading(1.09, 0.04)).differs).toBe(false);
  });

  test('few degrees of freedom ask for more: 9.3 dof make the same angle insignificant', () => {
    // Welch-Satterthwaite: 0.05^4 / (0.03^4 / 5 + 0.04^4 / 5) = 9.27.
    const found = lineDifference(heading(0, 0.03, 5), heading(0.11, 0.04, 5));
    expect(found.dof).toBeCloseTo(6.25e-6 / ((8.1e-7 + 2.56e-6) / 5), 6);
    expect(found.k).toBeGreaterThan(2.28);
    expect(found.differs).toBe(false);
    expect(lineDifference(heading(0, 0.03), heading(0.11, 0.04)).differs).toBe(true);
  });

  test('the probability at U is 4.55 %, whatever the degrees of freedom', () => {
    for (const dof of [3, 10, Number.POSITIVE_INFINITY]) {
      const first = { headingRad: 0, uRad: 0.001, dof };
      const U = lineDifference(first, { headingRad: 0, uRad: 0, dof }).expandedRad;
      expect(lineDifference(first, { headingRad: U, uRad: 0, dof }).probability).toBeCloseTo(0.0455, 6);
    }
  });

  test('what the lines share drops out; a negative covariance adds', () => {
    const u2 = radFromDeg(0.03) ** 2;
    const same = lineDifference(heading(0, 0.03), heading(0.01, 0.03), u2);
    expect(same.uRad).toBeCloseTo(0, 12);
    const against = lineDifference(heading(0, 0.03), heading(0.01, 0.03), -u2);
    expect(against.uRad).toBeCloseTo(radFromDeg(0.06), 12);
    expect(() => lineDifference(heading(0, 0.03), heading(0, 0.03), 2 * u2)).toThrow(/covariance/);
  });

  test('across half a turn the angle stays small; no angle is no difference', () => {
    const found = lineDifference(heading(179.95, 0.03), heading(-179.95, 0.03));
    expect(found.angleRad).toBeCloseTo(radFromDeg(0.1), 9);
    expect(lineDifference(heading(1, 0), heading(1, 0))).toMatchObject({ differs: false, probability: 1 });
    expect(lineDifference(heading(1, 0), heading(1.01, 0))).toMatchObject({ differs: true, probability: 0 });
  });

  test('in words, without a sign', () => {
    for (const degrees of [0.15, -0.15, 0.02]) {
      const { key, values } = differenceSentence(lineDifference(heading(0, 0.03), heading(degrees, 0.04)));
      expect(key).toBe(Math.abs(degrees) > 0.1 ? 'datum.linesDiffer' : 'datum.linesAlike');
      expect(wordFaults(say(key, values))).toEqual([]);
    }
  });
});

describe("an alignment report's thrust angle", () => {
  const at = (xMm: number, yMm: number) => ({ xMm, yMm, uXMm: 1, uYMm: 1 });
  const centreline = centrelineFromHubs(
    independentPlaces(['FL', 'FR', 'RL', 'RR'], {
      FL: at(2600, 750),
      FR: at(2600, -750),
      RL: at(0, 750),
      RR: at(0, -750),
    }),
  );
  const report = {
    madeOn: '2026-11-24',
    document: 'A-17',
    thrustAngleRad: radFromDeg(0.06),
    convention: 'positiveRight',
    expandedRad: radFromDeg(0.05),
    k: 2,
  } as const;
  const found = () => {
    if (!centreline.ok) throw new Error('four hubs');
    const line = thrustLineFromReport(centreline.value, report);
    if (!line.ok) throw new Error(line.error.code);
    return { ...line.value, centre: centreline.value };
  };

  test('printed positive to the right it turns the line to the right', () => {
    const { line, difference } = found();
    expect(line.headingRad).toBeCloseTo(radFromDeg(-0.06), 9);
    expect(difference.angleRad).toBeCloseTo(radFromDeg(-0.06), 12);
    expect(line.source).toBe('alignmentReport');
  });

  test('the difference has the u of the report alone; the line has both', () => {
    const { line, difference, centre } = found();
    expect(difference.uRad).toBeCloseTo(radFromDeg(0.025), 12);
    expect(difference.differs).toBe(true);
    expect(line.heading.u).toBeCloseTo(Math.hypot(1 / 2600, radFromDeg(0.025)), 9);
    const ahead = sideKnowledge(line, 5000);
    expect(ahead.u).toBeCloseTo(Math.hypot(sideKnowledge(centre, 5000).u, 5000 * radFromDeg(0.025)), 3);
    expect(headingOf(line).uRad).toBe(line.heading.u);
  });

  test('without an uncertainty it proves nothing', () => {
    if (!centreline.ok) throw new Error('four hubs');
    expect(thrustLineFromReport(centreline.value, { ...report, expandedRad: 0 })).toEqual({
      ok: false,
      error: { code: 'vehicle/reportWithoutUncertainty', document: 'A-17' },
    });
  });
});
