/**
 * Worked examples of JCGM 100:2008 (GUM). Inputs and outputs as in the document (seen in public test suites that cite
 * its clauses); figures with more digits than it prints were recomputed with numpy. "From memory" marks printed values
 * not seen in a source.
 */
import { describe, expect, test } from 'vitest';
import { matrixFromRows } from '../../core/linalg/matrix.ts';
import { leastSquares } from '../../core/linalg/qr.ts';
import { coverageFactor } from '../../core/uncertainty/coverage.ts';
import { propagate, propagateJointly, type Values } from '../../core/uncertainty/propagate.ts';
import { dofFromDoubt, quantity, rectangular, triangular } from '../../core/uncertainty/quantity.ts';
import { conciseStatement, roundUncertainty, statement } from '../../core/uncertainty/report.ts';
import { secondOrder } from '../../core/uncertainty/secondOrder.ts';
import {
  correlationOfReadings,
  doubtOfDeviation,
  standardDeviation,
  typeA,
} from '../../core/uncertainty/typeA.ts';
import { arcsine, inexactLimits, trapezoidal } from '../../core/uncertainty/typeB.ts';

function root(...parts: readonly number[]): number {
  return Math.sqrt(parts.reduce((sum, part) => sum + part * part, 0));
}

describe('H.1: an end gauge by comparison, nm', () => {
  // H.1.3.2, as printed: repeats 13 / sqrt 5; random and systematic part of the comparator, 10 / 2.57 and 20 / 3.
  const d = propagate(
    {
      inputs: {
        repeats: quantity('repeats', 215, 5.8, 24),
        random: quantity('random', 0, 3.9, 5),
        systematic: quantity('systematic', 0, 6.7, 8),
      },
      formula: (x) => x.repeats + x.random + x.systematic,
    },
    { level: 0.95 },
  );
  const model = {
    inputs: {
      standard: quantity('standard', 50_000_623, 75 / 3, 18),
      difference: quantity('difference', 215, d.u, d.dof),
      expansion: quantity('expansion', 11.5e-6, rectangular(2e-6)),
      temperature: quantity('temperature', -0.1, root(0.2, arcsine(0.5))),
      expansionGap: quantity('expansionGap', 0, rectangular(1e-6), 50),
      temperatureGap: quantity('temperatureGap', 0, rectangular(0.05), 2),
    },
    formula: (x: Values<string>): number => {
      const { standard = 0, difference = 0, expansion = 0, temperature = 0 } = x;
      const { expansionGap = 0, temperatureGap = 0 } = x;
      return standard + difference - standard * (expansionGap * temperature + expansion * temperatureGap);
    },
  };

  test('the difference: u 9.7 with 25.6 degrees of freedom', () => {
    expect(d.u).toBeCloseTo(9.6819, 3);
    expect(d.u.toFixed(1)).toBe('9.7');
    // Printed 25.6 holds 9.7 in the numerator; unrounded it is 25.4.
    expect(d.dof).toBeCloseTo(25.447, 2);
    expect((d.dof * (9.7 / d.u) ** 4).toFixed(1)).toBe('25.6');
    expect(d.lines.map((line) => line.u.toFixed(1))).toEqual(['6.7', '5.8', '3.9']);
  });

  test('Table H.1: 50 000 838 nm, u 32 nm, and what each input contributes', () => {
    const found = propagate(model, { level: 0.99, wholeDof: true });
    expect(found.value).toBe(50_000_838);
    expect(found.u).toBeCloseTo(31.6639, 3);
    expect(found.u.toFixed(0)).toBe('32');
    const contribution = (id: string): number =>
      found.lines.find((line) => line.input.id === id)?.u ?? Number.NaN;
    expect(contribution('standard')).toBeCloseTo(25, 4);
    expect(contribution('temperatureGap')).toBeCloseTo(16.59903, 4);
    expect(contribution('expansionGap')).toBeCloseTo(2.88679, 4);
    // c = 0: neither the mean expansion nor the mean temperature counts to first order.
    expect(contribution('expansion')).toBeLessThan(1e-6);
    expect(contribution('temperature')).toBeLessThan(1e-6);
    expect(found.lines.map((line) => line.input.id).slice(0, 4)).toEqual([
      'standard',
      'temperatureGap',
      'difference',
      'expansionGap',
    ]);
  });

  test('H.1.6: 16.7 degrees of freedom cut to 16, t 2.92, U99 93 nm', () => {
    expect(propagate(model).dof).toBeCloseTo(16.75, 1);
    const found = propagate(model, { level: 0.99, wholeDof: true });
    expect(found.dof).toBe(16);
    expect(found.k).toBeCloseTo(2.9207816224, 8);
    expect(found.k.toFixed(2)).toBe('2.92');
    expect(Math.abs(found.U - 93)).toBeLessThan(1);
    expect(found.U).toBeCloseTo(92.483, 2);
    // k from the uncut dof is another number: the cut comes before the table.
    expect(propagate(model, { level: 0.99 }).k).toBeLessThan(found.k - 0.01);
  });

  test('H.1.6 with the rounded u of the document: 16.8 either way, U 93', () => {
    const rounded = propagate(
      { ...model, inputs: { ...model.inputs, difference: quantity('difference', 215, 9.7, 25.6) } },
      { level: 0.99, wholeDof: true },
    );
    expect(rounded.dof).toBe(16);
    expect(Math.abs(rounded.k * Math.round(rounded.u) - 93.5)).toBeLessThan(0.05);
  });

  test('given sensitivities replace differences and give the same', () => {
    const exact = propagate({
      ...model,
      sensitivities: {
        standard: 1,
        difference: 1,
        expansion: 0,
        temperature: 0,
        expansionGap: 50_000_623 * 0.1,
        temperatureGap: -50_000_623 * 11.5e-6,
      },
    });
    // Differences of a length of 5e7 that move it by 25 keep nine digits of a double's sixteen.
    expect(propagate(model).u / exact.u).toBeCloseTo(1, 9);
    // The fourth power of u multiplies that by four.
    expect(propagate(model).dof / exact.dof).toBeCloseTo(1, 8);
    expect(propagate({ ...model, sensitivities: { standard: 2 } }).u).toBeGreaterThan(53);
  });

  test('H.1.7: the second-order terms are 11.7 and 1.7 nm and raise u to 34 nm', () => {
    const found = secondOrder(model);
    const term = (a: string, b: string): number =>
      Math.sqrt(
        found.terms.find(({ between }) => between.includes(a) && between.includes(b))?.variance ?? Number.NaN,
      );
    expect(term('expansionGap', 'temperature')).toBeCloseTo(11.726, 1);
    expect(term('expansionGap', 'temperature').toFixed(1)).toBe('11.7');
    expect(term('expansion', 'temperatureGap')).toBeCloseTo(1.66667, 3);
    expect(found.firstOrderU).toBeCloseTo(31.6639, 3);
    expect(found.u).toBeCloseTo(33.8065, 2);
    expect(found.u.toFixed(0)).toBe('34');
    expect(Math.abs(found.bias)).toBeLessThan(1e-3);
  });
});

describe('H.2: resistance, reactance and impedance measured together', () => {
  // Table H.2, five sets read at the same time.
  const volts = [5.007, 4.994, 5.005, 4.99, 4.999];
  const amperes = [19.663e-3, 19.639e-3, 19.64e-3, 19.685e-3, 19.678e-3];
  const radians = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];
  const inputs = { V: typeA('V', volts), I: typeA('I', amperes), phi: typeA('phi', radians) };
  type Read = Values<'V' | 'I' | 'phi'>;
  const formulas = {
    resistance: (x: Read) => (x.V / x.I) * Math.cos(x.phi),
    reactance: (x: Read) => (x.V / x.I) * Math.sin(x.phi),
    impedance: (x: Read) => x.V / x.I,
  };
  const pair = (a: 'V' | 'I' | 'phi', b: 'V' | 'I' | 'phi', r: number) => ({ between: [a, b] as const, r });
  const correlations = [
    pair('V', 'I', correlationOfReadings(volts, amperes)),
    pair('V', 'phi', correlationOfReadings(volts, radians)),
    pair('I', 'phi', correlationOfReadings(amperes, radians)),
  ];
  const joint = propagateJointly({ inputs, correlations }, formulas);
  const relative = (a: number, b: number): number => Math.abs(a / b - 1);

  test('Table H.2: means, their u, and correlations -0.36, 0.86, -0.65', () => {
    expect(inputs.V.value).toBeCloseTo(4.999, 12);
    expect(inputs.I.value).toBeCloseTo(19.661e-3, 14);
    expect(inputs.phi.value).toBeCloseTo(1.04446, 12);
    expect(relative(inputs.V.u, 0.0032093613)).toBeLessThan(1e-7);
    expect(relative(inputs.I.u, 9.4710084e-6)).toBeLessThan(1e-7);
    expect(relative(inputs.phi.u, 7.5206383e-4)).toBeLessThan(1e-7);
    [-0.35531122, 0.85762421, -0.64511122].forEach((r, i) => {
      expect(correlations[i]?.r).toBeCloseTo(r, 7);
    });
    expect(correlations.map(({ r }) => r.toFixed(2))).toEqual(['-0.36', '0.86', '-0.65']);
  });

  test('Table H.3, first approach: R 127.732(71), X 219.847(295), Z 254.260(236) ohm', () => {
    const rows = [
      ['resistance', 127.73216993, 0.07107141, 127.732, 0.071],
      ['reactance', 219.84651191, 0.29558168, 219.847, 0.295],
      ['impedance', 254.25970195, 0.23633613, 254.26, 0.236],
    ] as const;
    for (const [name, value, u, printed, printedU] of rows) {
      const found = joint.results[name];
      expect(relative(found.value, value), name).toBeLessThan(1e-10);
      expect(relative(found.u, u), name).toBeLessThan(1e-7);
      expect(Math.abs(found.value - printed), name).toBeLessThan(1e-3);
      expect(Math.abs(found.u - printedU), name).toBeLessThan(1e-3);
    }
  });

  test('correlations of the results -0.588, -0.485, 0.993', () => {
    expect(joint.correlation('resistance', 'reactance')).toBeCloseTo(-0.58842978, 7);
    expect(joint.correlation('resistance', 'impedance')).toBeCloseTo(-0.48525922, 7);
    expect(joint.correlation('reactance', 'impedance')).toBeCloseTo(0.99251165, 7);
    expect(joint.correlation('impedance', 'impedance')).toBeCloseTo(1, 14);
    expect(joint.covariance('reactance', 'reactance')).toBeCloseTo(joint.results.reactance.u ** 2, 12);
  });

  test('Table H.4, second approach: each set worked out by itself gives the same to four digits', () => {
    const sets = volts.map((V, k) => ({ V, I: amperes[k] ?? Number.NaN, phi: radians[k] ?? Number.NaN }));
    const rows = [
      ['resistance', 127.73163048, 0.07127354],
      ['reactance', 219.8468946, 0.29548909],
      ['impedance', 254.26004959, 0.2362475],
    ] as const;
    for (const [name, value, u] of rows) {
      const found = typeA(name, sets.map(formulas[name]));
      expect(relative(found.value, value), name).toBeLessThan(1e-10);
      expect(relative(found.u, u), name).toBeLessThan(1e-7);
      expect(relative(found.u, joint.results[name].u), name).toBeLessThan(3e-3);
    }
  });

  test('with the printed, rounded correlations u is 0.070, 0.30, 0.24; without any, R is 0.195 and X 0.201', () => {
    const rounded = propagateJointly(
      { inputs, correlations: [pair('V', 'I', -0.36), pair('V', 'phi', 0.86), pair('I', 'phi', -0.65)] },
      formulas,
    );
    expect(rounded.results.resistance.u.toFixed(3)).toBe('0.070');
    expect(rounded.results.reactance.u.toFixed(2)).toBe('0.30');
    expect(rounded.results.impedance.u.toFixed(2)).toBe('0.24');
    const without = propagateJointly({ inputs }, formulas);
    expect(without.results.resistance.u).toBeCloseTo(0.195, 2);
    expect(without.results.reactance.u).toBeCloseTo(0.201, 2);
  });

  test('means of five sets have four degrees of freedom together, however many inputs there are', () => {
    for (const name of ['resistance', 'reactance', 'impedance'] as const)
      expect(joint.results[name].dof).toBeCloseTo(4, 9);
    expect(joint.results.resistance.k).toBeCloseTo(2.87, 2);
  });
});

describe('H.3: the line of a thermometer calibration', () => {
  // biome-ignore format: Table H.6
  const t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511];
  // biome-ignore format: Table H.6
  const b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160];
  const fit = leastSquares(matrixFromRows(t.map((x) => [1, x - 20])), b);
  if (!fit.ok) throw new Error('H.3 has two unknowns and eleven readings');
  const { x, cofactor, residualSquares, dof } = fit.value;
  const s = Math.sqrt(residualSquares / dof);
  const deviation = (i: number): number => s * Math.sqrt(cofactor[3 * i] ?? Number.NaN);
  const r = (cofactor[1] ?? Number.NaN) / Math.sqrt((cofactor[0] ?? 0) * (cofactor[3] ?? 0));

  test('intercept -0.1712(29), slope 0.00218(67), correlation -0.930, s 0.0035 (printed from memory)', () => {
    expect(x[0]).toBeCloseTo(-0.17120379, 8);
    expect(x[1]).toBeCloseTo(0.0021827, 7);
    expect(deviation(0)).toBeCloseTo(0.0028776, 8);
    expect(deviation(1)).toBeCloseTo(0.00066794, 8);
    expect(r).toBeCloseTo(-0.930429603, 8);
    expect(s).toBeCloseTo(0.00349756396, 10);
    expect(dof).toBe(9);
  });

  test('H.3.4: at 30 degrees -0.1494 with u 0.0041, through the correlated line', () => {
    const known = {
      inputs: {
        y1: quantity('y1', x[0] ?? Number.NaN, deviation(0), dof),
        y2: quantity('y2', x[1] ?? Number.NaN, deviation(1), dof),
      },
      formula: (v: Values<'y1' | 'y2'>) => v.y1 + v.y2 * 10,
    };
    const found = propagate({ ...known, correlations: [{ between: ['y1', 'y2'], r }] });
    expect(found.value).toBeCloseTo(-0.14937681273, 9);
    expect(found.u).toBeCloseTo(0.00413859575, 9);
    expect(found.dof).toBeCloseTo(9, 9);
    // Without the correlation u would be 0.0073: the slope is known about the middle of the readings, not about 20.
    expect(propagate(known).u).toBeGreaterThan(0.007);
  });
});

describe('Type A and Type B', () => {
  test('4.4.3, Table 1: twenty temperatures give 100.14, s 1.49, u 0.33 (from memory)', () => {
    // biome-ignore format: Table 1
    const readings = [
      96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07,
      100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72,
    ];
    const found = typeA('t', readings);
    expect(found.value).toBeCloseTo(100.145, 9);
    expect(standardDeviation(readings)).toBeCloseTo(1.488844483, 8);
    expect(found.u).toBeCloseTo(0.332915747, 8);
    expect(found.dof).toBe(19);
  });

  test('divisors: 4.3.7 rectangular, 4.3.9 triangular and trapezoidal, H.1.3.4 arcsine, JCGM 101 6.4.3.3', () => {
    expect(rectangular(1)).toBeCloseTo(0.577350269, 9);
    expect(triangular(1)).toBeCloseTo(0.40824829, 9);
    expect(arcsine(1000)).toBeCloseTo(707.106781, 6);
    expect(arcsine(0.5).toFixed(2)).toBe('0.35');
    expect(trapezoidal(1, 0)).toBeCloseTo(triangular(1), 14);
    expect(trapezoidal(1, 1)).toBeCloseTo(rectangular(1), 14);
    expect(trapezoidal(2, 0.5)).toBeCloseTo(2 * Math.sqrt(1.25 / 6), 14);
    expect(inexactLimits(1, 0)).toBeCloseTo(rectangular(1), 14);
    // (b - a)^2 / 12 + d^2 / 9 with b - a = 2 and d = 0.5.
    expect(inexactLimits(1, 0.5) ** 2).toBeCloseTo(4 / 12 + 0.25 / 9, 14);
    expect(() => trapezoidal(1, 1.2)).toThrow(/part of the base/);
  });

  test('Table E.1: the doubt of s itself, 76 52 42 36 24 16 13 10 % (printed from memory)', () => {
    const rows = [
      [2, 75.55, '76'],
      [3, 52.27, '52'],
      [4, 42.2, '42'],
      [5, 36.3, '36'],
      [10, 23.88, '24'],
      [20, 16.33, '16'],
      [30, 13.19, '13'],
      [50, 10.13, '10'],
    ] as const;
    for (const [n, percent, printed] of rows) {
      expect(Math.abs(100 * doubtOfDeviation(n) - percent), `n = ${n}`).toBeLessThan(0.0051);
      expect((100 * doubtOfDeviation(n)).toFixed(0)).toBe(printed);
    }
    expect(() => doubtOfDeviation(1)).toThrow(/readings/);
  });

  test('G.3: doubts of 10, 25, 50 % are 50, 8, 2 degrees of freedom', () => {
    expect(dofFromDoubt(0.1)).toBeCloseTo(50, 10);
    expect(dofFromDoubt(0.25)).toBe(8);
    expect(dofFromDoubt(0.5)).toBe(2);
  });
});

describe('Table G.2, rows not held by coverage.test.ts', () => {
  test('35 degrees of freedom; the 90 % entry is remembered as 1.70 where t is 1.69, and is left out', () => {
    const printed = [
      [0.6827, '1.01'],
      [0.95, '2.03'],
      [0.9545, '2.07'],
      [0.99, '2.72'],
      [0.9973, '3.23'],
    ] as const;
    for (const [level, text] of printed) expect(coverageFactor(35, level).toFixed(2)).toBe(text);
  });

  test('100 degrees of freedom, three decimals (from memory; recomputed with scipy)', () => {
    const printed = [
      [0.6827, '1.005'],
      [0.9, '1.660'],
      [0.95, '1.984'],
      [0.9545, '2.025'],
      [0.99, '2.626'],
      [0.9973, '3.077'],
    ] as const;
    for (const [level, text] of printed) expect(coverageFactor(100, level).toFixed(3)).toBe(text);
  });
});

describe('7.2 and ILAC-P14: stating a result (from memory)', () => {
  test('7.2.2: 100.02147(35) g; 7.2.4: U = 2.26 x 0.35 mg = 0.79 mg', () => {
    expect(conciseStatement(100.02147, 0.35e-3)).toBe('100.02147(35)');
    const U = 0.35 * coverageFactor(9, 0.95);
    expect(U).toBeCloseTo(0.7918, 4);
    expect(statement(100.02147, U / 1000)).toEqual({ value: '100.02147', U: '0.00079', decimals: 5 });
  });

  test('7.2.6: 10.05762 ohm with 27 milliohm is 10.058; 28.05 kHz is 28', () => {
    expect(statement(10.05762, 0.027)).toMatchObject({ value: '10.058', U: '0.027' });
    expect(roundUncertainty(28.05)).toEqual({ U: 28, decimals: 0 });
  });

  test('0.7918 -> 0.79, 1.249 -> 1.2 (3.9 % less), 1.06 -> 1.1, with one digit 2', () => {
    expect(roundUncertainty(0.7918).U).toBe(0.79);
    expect(roundUncertainty(1.249).U).toBe(1.2);
    expect(roundUncertainty(1.06)).toEqual({ U: 1.1, decimals: 1 });
    expect(roundUncertainty(1.06, 1)).toEqual({ U: 2, decimals: 0 });
  });

  test('1234.5678 with 2.345 is 1234.6 and 2.3; 0.0004996 with 0.0000996 is 0.00050 and 0.00010', () => {
    expect(statement(1234.5678, 2.345)).toEqual({ value: '1234.6', U: '2.3', decimals: 1 });
    expect(statement(0.0004996, 0.0000996)).toEqual({ value: '0.00050', U: '0.00010', decimals: 5 });
  });
});
