/** What is found of the car, as label and value; slopes and turns in words, never with a sign. */
import type { FoundQuantity, VehicleFound } from '../../core/placement/types.ts';
import { formatDeg, formatFixed, formatMm, percentFromRad } from '../../core/units.ts';
import { say } from '../../core/words/index.ts';

export interface FactWords {
  readonly label: string;
  readonly value: string;
}

const withU = (quantity: FoundQuantity): string =>
  say('datum.withU', { value: formatMm(quantity.value, 1), U: formatMm(2 * quantity.u, 1) });

function slope(valueRad: number, rising: string, falling: string): string {
  const share = formatFixed(Math.abs(percentFromRad(valueRad)), 2);
  if (!/[1-9]/.test(share)) return say('datum.level');
  return say('datum.slope', { share, way: valueRad > 0 ? rising : falling });
}

function thrustWords(vehicle: VehicleFound): string {
  const { thrustLine } = vehicle;
  if (thrustLine === undefined) return say('datum.thrust.none');
  const side = thrustLine.angle.value > 0 ? say('side.carLeft') : say('side.carRight');
  return say('datum.thrust.value', {
    angle: formatDeg(Math.abs(thrustLine.angle.value), 2),
    side,
    U: formatDeg(thrustLine.expandedRad, 2),
  });
}

export function carFoundWords(vehicle: VehicleFound): readonly FactWords[] {
  const rock = Math.max(...Object.values(vehicle.warpMm).map((each) => Math.abs(each)));
  return [
    { label: say('datum.wheelbase'), value: withU(vehicle.wheelbase) },
    { label: say('datum.trackFront'), value: withU(vehicle.trackFront) },
    { label: say('datum.trackRear'), value: withU(vehicle.trackRear) },
    { label: say('datum.thrust'), value: thrustWords(vehicle) },
    {
      label: say('datum.slopeAhead'),
      value: slope(vehicle.slopeAheadRad, say('datum.risesAhead'), say('datum.fallsAhead')),
    },
    {
      label: say('datum.slopeLeft'),
      value: slope(vehicle.slopeLeftRad, say('datum.risesLeft'), say('datum.fallsLeft')),
    },
    { label: say('datum.rock'), value: formatMm(rock, 1) },
  ];
}
