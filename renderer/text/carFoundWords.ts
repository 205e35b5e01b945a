/** What is found of the car, as label, value and U; slopes and turns in words, never with a sign. */
import type { FoundQuantity, ThrustLineFound, VehicleFound } from '../../core/placement/found.ts';
import { formatDeg, formatFixed, percentFromRad } from '../../core/units.ts';
import { say } from '../../core/words/index.ts';
import { lengthText } from './lengthText.ts';

export interface FactWords {
  readonly label: string;
  readonly value: string;
  /** The expanded uncertainty; empty where none is stated. */
  readonly note: string;
}

const measured = (label: string, quantity: FoundQuantity): FactWords => ({
  label,
  value: lengthText(quantity.value, 1),
  note: say('datum.U', { U: lengthText(2 * quantity.u, 1) }),
});

function slope(label: string, valueRad: number, rising: string, falling: string): FactWords {
  const share = formatFixed(Math.abs(percentFromRad(valueRad)), 2);
  const way = valueRad > 0 ? rising : falling;
  const value = /[1-9]/.test(share) ? say('datum.slope', { share, way }) : say('datum.level');
  return { label, value, note: '' };
}

function thrust(label: string, line: ThrustLineFound | undefined): FactWords {
  if (line === undefined) return { label, value: say('datum.thrust.none'), note: '' };
  const side = line.angle.value > 0 ? say('side.carLeft') : say('side.carRight');
  return {
    label,
    value: say('datum.thrust.value', { angle: formatDeg(Math.abs(line.angle.value), 2), side }),
    note: say('datum.U', { U: formatDeg(line.expandedRad, 2) }),
  };
}

export function carFoundWords(vehicle: VehicleFound): readonly FactWords[] {
  const rock = Math.max(...Object.values(vehicle.warpMm).map((each) => Math.abs(each)));
  return [
    measured(say('datum.wheelbase'), vehicle.wheelbase),
    measured(say('datum.trackFront'), vehicle.trackFront),
    measured(say('datum.trackRear'), vehicle.trackRear),
    thrust(say('datum.thrust'), vehicle.thrustLine),
    slope(say('datum.slopeAhead'), vehicle.slopeAheadRad, say('datum.risesAhead'), say('datum.fallsAhead')),
    slope(say('datum.slopeLeft'), vehicle.slopeLeftRad, say('datum.risesLeft'), say('datum.fallsLeft')),
    { label: say('datum.rock'), value: lengthText(rock, 1), note: '' },
  ];
}
