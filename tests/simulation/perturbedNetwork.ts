/** A network whose readings, and what is known beforehand, say something else: row by row as in a solution of it. */
import type { Network, Reading } from '../../core/adjust/network.ts';
import type { RowResult } from '../../core/adjust/solution.ts';

/** The same network with the values of `observed`, one for each row of its solution. */
export function perturbedNetwork(
  network: Network,
  rows: readonly RowResult[],
  observed: ArrayLike<number>,
): Network {
  const said = new Map(rows.map((row, r) => [row.id, observed[r] ?? Number.NaN] as const));
  const of = (source: string, component: string): number => said.get(`${source}/${component}`) ?? Number.NaN;
  return {
    ...network,
    readings: network.readings.map((reading) => withValue(reading, (component) => of(reading.id, component))),
    shared: network.shared.map((shared) => {
      if (shared.is.state !== 'known') return shared;
      const value = of(shared.id, 'value');
      if (shared.quantity === 'length') return { ...shared, is: { ...shared.is, valueMm: value } };
      if (shared.quantity === 'angle') return { ...shared, is: { ...shared.is, valueRad: value } };
      return { ...shared, is: { ...shared.is, value } };
    }) as Network['shared'],
    bodies: network.bodies.map((body) => ({
      ...body,
      points: body.points.map((point) => ({
        ...point,
        xMm: point.uXMm > 0 ? of(point.id, 'x') : point.xMm,
        yMm: point.uYMm > 0 ? of(point.id, 'y') : point.yMm,
        zMm: point.uZMm > 0 ? of(point.id, 'z') : point.zMm,
      })),
    })),
  };
}

function withValue(reading: Reading, of: (component: string) => number): Reading {
  switch (reading.kind) {
    case 'drop':
      return { ...reading, alongMm: of('along'), acrossMm: of('across') };
    case 'tilt':
      return { ...reading, valueRad: of('value') };
    case 'constraint':
      return { ...reading, value: of('value') };
    case 'distance':
    case 'height':
    case 'offset':
    case 'along':
      return { ...reading, valueMm: of('value') };
    default:
      throw new Error(`no trial of a reading of kind ${reading.kind}`);
  }
}
