/** The demo placement as other readings would have made it, and with a datum. */
import type { Network, NetworkPoint, Reading } from '../../core/adjust/network.ts';
import { fixed } from '../core/adjust/networks.ts';

/** Adds errors to the readings of the placement network, each a share of its own u. */
export function withErrors(document: Network, errors: readonly number[]): Network {
  let k = 0;
  const next = (): number => errors[k++ % errors.length] ?? 0;
  const readings = document.readings.map((reading): Reading => {
    switch (reading.kind) {
      case 'drop':
        return {
          ...reading,
          alongMm: reading.alongMm + next() * reading.uAlongMm,
          acrossMm: reading.acrossMm + next() * reading.uAcrossMm,
        };
      case 'tilt':
      case 'angle':
        return { ...reading, valueRad: reading.valueRad + next() * reading.uRad };
      case 'constraint':
      case 'pose':
        return reading;
      default:
        return { ...reading, valueMm: reading.valueMm + next() * reading.uMm };
    }
  });
  return { ...document, readings };
}

/** The rear left mark holds the origin, the front left one the direction. */
export function withDatum(document: Network): Network {
  const hold = (point: NetworkPoint): NetworkPoint => {
    if (point.id === 'mark.RL') return { ...point, x: fixed(0), y: fixed(0) };
    return point.id === 'mark.FL' ? { ...point, y: fixed(0) } : point;
  };
  return { ...document, points: document.points.map(hold) };
}
