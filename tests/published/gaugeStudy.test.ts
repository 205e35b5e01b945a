/**
 * The study of ten parts, three people, three trials in the AIAG Measurement Systems Analysis manual (4th ed., chapter
 * III, section B), by both methods. Data and table as in several public suites that cite the manual; more digits than
 * printed were recomputed with numpy; printed figures of the range method are from memory.
 */
import { describe, expect, test } from 'vitest';
import { averageRange } from '../../core/repeatability/averageRange.ts';
import { crossedAnova } from '../../core/repeatability/crossedAnova.ts';
import { crossedStudy, type Study } from '../../core/repeatability/study.ts';
import { readingUncertainty } from '../../core/uncertainty/readingUncertainty.ts';

// biome-ignore format: one part a line, three trials for each of A, B, C
const DATA = [
  [[0.29, 0.41, 0.64], [0.08, 0.25, 0.07], [0.04, -0.11, -0.15]],
  [[-0.56, -0.68, -0.58], [-0.47, -1.22, -0.68], [-1.38, -1.13, -0.96]],
  [[1.34, 1.17, 1.27], [1.19, 0.94, 1.34], [0.88, 1.09, 0.67]],
  [[0.47, 0.50, 0.64], [0.01, 1.03, 0.20], [0.14, 0.20, 0.11]],
  [[-0.80, -0.92, -0.84], [-0.56, -1.20, -1.28], [-1.46, -1.07, -1.45]],
  [[0.02, -0.11, -0.21], [-0.20, 0.22, 0.06], [-0.29, -0.67, -0.49]],
  [[0.59, 0.75, 0.66], [0.47, 0.55, 0.83], [0.02, 0.01, 0.21]],
  [[-0.31, -0.20, -0.17], [-0.63, 0.08, -0.34], [-0.46, -0.56, -0.49]],
  [[2.26, 1.99, 2.01], [1.80, 2.12, 2.19], [1.77, 1.45, 1.87]],
  [[-1.36, -1.25, -1.31], [-1.68, -1.62, -1.50], [-1.49, -1.77, -2.16]],
] as const;

function study(): Study {
  const result = crossedStudy(DATA);
  if (!result.ok) throw new Error(result.error.code);
  return result.value;
}

describe('analysis of variance', () => {
  const found = crossedAnova(study());

  test('sums of squares, degrees of freedom, mean squares', () => {
    const rows = [
      [found.partLine, 9, 88.3619344444, 9.81799271605, '88.3619'],
      [found.personLine, 2, 3.1672622222, 1.58363111111, '3.1673'],
      [found.interactionLine, 18, 0.3589822222, 0.0199434567901, '0.3590'],
      [found.readingLine, 60, 2.7589333333, 0.0459822222222, '2.7589'],
    ] as const;
    for (const [line, dof, squares, meanSquare, printed] of rows) {
      expect(line.dof).toBe(dof);
      expect(line.squares).toBeCloseTo(squares, 9);
      expect(line.meanSquare).toBeCloseTo(meanSquare, 10);
      expect(line.squares.toFixed(4)).toBe(printed);
    }
    expect(found.totalLine.dof).toBe(89);
    expect(found.totalLine.squares).toBeCloseTo(94.6471122222, 9);
    const parts = [found.partLine, found.personLine, found.interactionLine, found.readingLine];
    expect(parts.reduce((sum, { squares }) => sum + squares, 0)).toBeCloseTo(found.totalLine.squares, 11);
  });

  test('the interaction, F 0.434 with p 0.974, is chance and is pooled', () => {
    expect(found.interactionLine.f).toBeCloseTo(0.433721030135, 10);
    expect(found.interactionLine.p).toBeCloseTo(0.974106404329, 9);
    expect(found.pooledLine?.dof).toBe(78);
    expect(found.pooledLine?.squares).toBeCloseTo(3.1179155556, 9);
    expect(found.pooledLine?.meanSquare).toBeCloseTo(0.0399732763533, 11);
    expect(found.partLine.f).toBeCloseTo(245.613910386, 7);
    expect(found.personLine.f).toBeCloseTo(39.61724571, 8);
  });

  test('components: EV 0.199933, AV 0.226838, GRR 0.302373, PV 1.042327, TV 1.085', () => {
    const rows = [
      [found.repeatability, 0.199933179721, 0.199933],
      [found.reproducibility, 0.226837521496, 0.226838],
      [found.measuring, 0.302371522323, 0.302373],
      [found.parts, 1.042327493838, 1.042327],
      [found.total, 1.085299563219, 1.0853],
    ] as const;
    for (const [component, sigma, published] of rows) {
      expect(component.sigma).toBeCloseTo(sigma, 9);
      expect(Math.abs(component.sigma - published)).toBeLessThan(5e-6);
    }
    expect(found.interaction.variance).toBe(0);
    const percent = [found.repeatability, found.reproducibility, found.measuring, found.parts];
    expect(percent.map((c) => (100 * c.contribution).toFixed(1))).toEqual(['3.4', '4.4', '7.8', '92.2']);
    expect(percent.map((c) => (100 * c.ofTotal).toFixed(1))).toEqual(['18.4', '20.9', '27.9', '96.0']);
  });

  test('4.86 classes, cut to 4', () => {
    expect(found.exactCategories).toBeCloseTo(4.860516477, 8);
    expect(found.categories).toBe(4);
  });

  test('without pooling: EV 0.214435, tested against the interaction, F 492.291 and 79.406', () => {
    const apart = crossedAnova(study(), 1);
    expect(apart.pooledLine).toBeUndefined();
    expect(apart.repeatability.sigma).toBeCloseTo(0.214435, 6);
    expect(apart.partLine.f).toBeCloseTo(492.291422664, 6);
    expect(apart.personLine.f).toBeCloseTo(79.406049201, 7);
    // The interaction's estimate is negative here, and is nothing.
    expect(apart.interaction.variance).toBe(0);
    expect(apart.pooledRepeatability).toEqual({ s: apart.repeatability.sigma, dof: 60 });
  });

  test('its repeatability becomes that of a reading: 78 degrees of freedom, lowered by repeats', () => {
    expect(found.pooledRepeatability.dof).toBe(78);
    const reading = readingUncertainty('r', 0, {
      repeatability: { ...found.pooledRepeatability, readings: 4 },
    });
    expect(reading.u).toBeCloseTo(0.199933179721 / 2, 9);
    expect(reading.dof).toBeCloseTo(78, 9);
  });
});

describe('average and range', () => {
  const result = averageRange(study());
  if (!result.ok) throw new Error(result.error.code);
  const found = result.value;

  test('ranges: 0.184, 0.513, 0.328, together 0.3417; people 0.4447, parts 3.511', () => {
    expect(found.personRanges.map((r) => r.toFixed(3))).toEqual(['0.184', '0.513', '0.328']);
    expect(found.meanRange).toBeCloseTo(0.341666667, 8);
    expect(found.peopleRange).toBeCloseTo(0.444666667, 8);
    expect(found.partRange).toBeCloseTo(3.511111111, 8);
  });

  test('EV 0.20188, AV 0.22963, GRR 0.30577, PV 1.10456, TV 1.14610 printed from a rounded chain', () => {
    const rows = [
      [found.repeatability, 0.201857, 0.20188],
      [found.reproducibility, 0.229667, 0.22963],
      [found.measuring, 0.305766, 0.30577],
      [found.parts, 1.104596, 1.10456],
      [found.total, 1.146135, 1.1461],
    ] as const;
    for (const [component, unrounded, printed] of rows) {
      expect(component.sigma).toBeCloseTo(unrounded, 6);
      expect(Math.abs(component.sigma - printed)).toBeLessThan(1e-4);
    }
    const percent = [found.repeatability, found.reproducibility, found.measuring, found.parts];
    [17.612, 20.038, 26.678, 96.376].forEach((expected, i) => {
      expect(100 * (percent[i]?.ofTotal ?? Number.NaN)).toBeCloseTo(expected, 3);
    });
  });

  test('5.09 classes, cut to 5, where the analysis of variance of the same readings gives 4', () => {
    expect(found.exactCategories).toBeCloseTo(5.0937, 4);
    expect(found.categories).toBe(5);
  });
});
