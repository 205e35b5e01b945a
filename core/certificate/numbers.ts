/**
 * Every number a certificate prints, rounded once: id, decimal text, unit, decimals. Text and record take the same
 * strings from here, and a recompute compares its own values with them.
 */

import { isAngleCoordinate } from '../frames.ts';
import type { CoordinateFinding, RadialFinding, StationFinding } from '../placement/finding.ts';
import type { PlacementAnswer } from '../placement/placementAnswer.ts';
import { degFromRad, formatFixed, percentFromRad, wrapRad } from '../units.ts';
import type { PrintedNumber } from './attachment.ts';

/** A number before rounding, in the unit and with the decimals it is printed with. */
export interface NumberToPrint {
  readonly id: string;
  readonly value: number;
  readonly unit: 'mm' | 'm' | 'deg' | '%' | '1';
  readonly decimals: number;
}

/** Decimals on paper: lengths to 0.1 mm, distances down the road to 0.01 m, angles to 0.01 degrees, shares to 0.1 %, coverage factors to 0.01. */
export const printedDecimals = { mm: 1, m: 2, deg: 2, '%': 1, '1': 2 } as const;

function length(id: string, valueMm: number): NumberToPrint {
  return { id, value: valueMm, unit: 'mm', decimals: printedDecimals.mm };
}

function angle(id: string, valueRad: number): NumberToPrint {
  return { id, value: degFromRad(valueRad), unit: 'deg', decimals: printedDecimals.deg };
}

/** A probability is printed between these: nobody can tell 99.97 % from 100 %, and 100 % is never true. */
export const probabilityLimits = { least: 0.1, most: 99.9 } as const;

function probability(id: string, share: number): NumberToPrint {
  const { least, most } = probabilityLimits;
  return {
    id,
    value: Math.min(most, Math.max(least, share * 100)),
    unit: '%',
    decimals: printedDecimals['%'],
  };
}

/**
 * The numbers of one coordinate. A turn, lean or tilt is printed as its deviation from the required attitude, which is
 * zero: the heading of a face in degrees tells a reader nothing.
 */
function coordinateNumbers(id: string, finding: CoordinateFinding): readonly NumberToPrint[] {
  const turning = isAngleCoordinate(finding.coordinate);
  const of = turning ? angle : length;
  const { permitted, probability: share, consequence } = finding;
  return [
    of(`${id}.required`, turning ? 0 : finding.required),
    of(`${id}.found`, turning ? wrapRad(finding.deviation) : finding.found),
    of(`${id}.deviation`, turning ? wrapRad(finding.deviation) : finding.deviation),
    of(`${id}.U`, finding.U),
    { id: `${id}.k`, value: finding.k, unit: '1', decimals: printedDecimals['1'] },
    ...(permitted?.lower === undefined ? [] : [of(`${id}.lower`, permitted.lower)]),
    ...(permitted?.upper === undefined ? [] : [of(`${id}.upper`, permitted.upper)]),
    ...(share === undefined ? [] : [probability(`${id}.probability`, share)]),
    ...(consequence === undefined
      ? []
      : [
          angle(`${id}.aim`, consequence.aimRad),
          {
            id: `${id}.at50`,
            value: consequence.metresAt50,
            unit: 'm' as const,
            decimals: printedDecimals.m,
          },
        ]),
  ];
}

/** The numbers of a distance within a plane; what is required of it is none at all. */
function radialNumbers(id: string, finding: RadialFinding): readonly NumberToPrint[] {
  return [
    length(`${id}.required`, 0),
    length(`${id}.found`, finding.distanceMm),
    length(`${id}.deviation`, finding.distanceMm),
    length(`${id}.U`, finding.U),
    { id: `${id}.k`, value: finding.k, unit: '1', decimals: printedDecimals['1'] },
    length(`${id}.upper`, finding.radiusMm),
    ...(finding.probability === undefined ? [] : [probability(`${id}.probability`, finding.probability)]),
  ];
}

function stationNumbers(sensor: string, station: StationFinding): readonly NumberToPrint[] {
  const at = `${sensor}.${station.station}`;
  const numbers = [
    ...station.coordinates.flatMap((each) => coordinateNumbers(`${at}.${each.coordinate}`, each)),
    ...(station.radial === undefined ? [] : radialNumbers(`${at}.radial`, station.radial)),
  ];
  return station.slide === undefined ? numbers : [...numbers, length(`${at}.slide`, station.slide.setMm)];
}

function vehicleNumbers(sensor: string, answer: PlacementAnswer): readonly NumberToPrint[] {
  const vehicle = answer.vehicle;
  if (vehicle === undefined) return [];
  const at = `${sensor}.vehicle`;
  const slope = (id: string, valueRad: number): NumberToPrint => ({
    id: `${at}.${id}`,
    value: percentFromRad(valueRad),
    unit: '%',
    decimals: 2,
  });
  return [
    length(`${at}.wheelbase`, vehicle.wheelbase.value),
    length(`${at}.trackFront`, vehicle.trackFront.value),
    length(`${at}.trackRear`, vehicle.trackRear.value),
    slope('slopeAhead', vehicle.slopeAheadRad),
    slope('slopeLeft', vehicle.slopeLeftRad),
    length(`${at}.rock`, Math.max(...Object.values(vehicle.warpMm).map((each) => Math.abs(each)))),
    ...(vehicle.thrustLine === undefined
      ? []
      : [
          angle(`${at}.thrust`, vehicle.thrustLine.angle.value),
          angle(`${at}.thrust.U`, vehicle.thrustLine.expandedRad),
        ]),
  ];
}

/** All numbers of one sensor's placement. Only stations that were found are printed with numbers. */
export function placementNumbers(sensor: string, answer: PlacementAnswer): readonly NumberToPrint[] {
  const found = answer.stations.filter((each) => each.basis === 'found');
  return [...vehicleNumbers(sensor, answer), ...found.flatMap((each) => stationNumbers(sensor, each))];
}

/** A number as it stands on paper and in the record. */
export function printNumber(number: NumberToPrint): PrintedNumber {
  return {
    id: number.id,
    value: formatFixed(number.value, number.decimals),
    unit: number.unit,
    decimals: number.decimals,
  };
}

/** Difference below which a recomputed number confirms a printed one: half its last place, plus 1e-6 of it. */
export function confirmsNumber(printed: PrintedNumber, recomputed: number): boolean {
  let lastPlace = 1;
  for (let i = 0; i < printed.decimals; i += 1) lastPlace /= 10;
  return Math.abs(Number(printed.value) - recomputed) <= lastPlace * (0.5 + 1e-6);
}
