/**
 * From what the maker wrote to millimetres and radians for this car: every text of a procedure evaluated over
 * the inputs measured on it. All faults are collected with the place they stand at, because the person who
 * enters a procedure wants the whole list.
 */
import { COORDINATES, type Coordinate, isAngleCoordinate } from '../frames.ts';
import type { PermittedDeviation, StationRequirement } from '../placement/requirement.ts';
import { err, ok, type Result } from '../result.ts';
import type { PROCEDURE_WORDS } from '../words/procedure.ts';
import type { InputValues } from './evaluate.ts';
import { EXPRESSION_FUNCTIONS, EXPRESSION_UNITS } from './expression.ts';
import { angleOf, lengthOf, type Measure } from './measure.ts';
import { type QuantityTextError, quantityValue, readQuantityText } from './quantityText.ts';
import type { Procedure, ProcedureStation, ProcedureTolerance } from './schema.ts';

/** A fault of a procedure, or of the inputs given for it: code, place (`stations.centre.ahead`), offending text. */
export type ProcedureFault = {
  readonly code:
    | QuantityTextError['code']
    | 'procedure/inputUnknown'
    | 'procedure/inputOutOfLimits'
    | 'procedure/nameTaken'
    | 'procedure/limitsCrossed'
    | 'procedure/toleranceSign'
    | 'procedure/slideWithoutBase'
    | 'procedure/slideMoves'
    | 'procedure/reviewUnclear'
    | 'procedure/nothingFits';
  readonly where: string;
  readonly text: string;
};

/** The catalogue key that says a fault. */
export function faultKey(code: ProcedureFault['code']): keyof typeof PROCEDURE_WORDS {
  const keys: Readonly<Record<ProcedureFault['code'], keyof typeof PROCEDURE_WORDS>> = {
    'procedure/expressionEmpty': 'procedure.expressionEmpty',
    'procedure/expressionTooLong': 'procedure.expressionTooLong',
    'procedure/expressionTooComplex': 'procedure.expressionTooComplex',
    'procedure/expressionUnreadable': 'procedure.expressionUnreadable',
    'procedure/expressionNotAllowed': 'procedure.expressionNotAllowed',
    'procedure/inputMissing': 'procedure.inputMissing',
    'procedure/inputUnknown': 'procedure.inputUnknown',
    'procedure/inputOutOfLimits': 'procedure.inputOutOfLimits',
    'procedure/unitsDoNotMatch': 'procedure.unitsDoNotMatch',
    'procedure/unitMissing': 'procedure.unitMissing',
    'procedure/groupingDoubtful': 'procedure.groupingDoubtful',
    'procedure/divisionByZero': 'procedure.divisionByZero',
    'procedure/notANumber': 'procedure.notANumber',
    'procedure/nameTaken': 'procedure.nameTaken',
    'procedure/limitsCrossed': 'procedure.limitsCrossed',
    'procedure/toleranceSign': 'procedure.toleranceSign',
    'procedure/slideWithoutBase': 'procedure.slideWithoutBase',
    'procedure/slideMoves': 'procedure.slideMoves',
    'procedure/reviewUnclear': 'procedure.reviewUnclear',
    'procedure/nothingFits': 'procedure.nothingFits',
  };
  return keys[code];
}

/** A procedure with numbers for one car. */
export type ResolvedProcedure = {
  /** Required poses in the vehicle frame, mm and radians, each coordinate from its own datum. */
  readonly stations: readonly StationRequirement[];
  /** Where the sensor sits, ahead of the rear axle, to the car's left, up; undefined when not given. */
  readonly sensor: { readonly aheadMm: number; readonly leftMm: number; readonly upMm: number } | undefined;
};

/** Evaluates texts and collects faults. A text with a fault counts as 0 and the whole answer becomes an error. */
class Resolver {
  readonly faults: ProcedureFault[] = [];
  private readonly inputs: InputValues;
  private readonly declared: ReadonlySet<string>;

  constructor(inputs: InputValues, declared: ReadonlySet<string>) {
    this.inputs = inputs;
    this.declared = declared;
  }

  fault(code: ProcedureFault['code'], where: string, text: string): void {
    this.faults.push({ code, where, text });
  }

  value(text: string, quantity: 'length' | 'angle', where: string): number {
    const read = readQuantityText(text, quantity);
    const result = read.ok ? quantityValue(read.value, quantity, this.inputs) : read;
    if (result.ok) return result.value;
    const unknown = result.error.code === 'procedure/inputMissing' && !this.declared.has(result.error.at);
    this.fault(unknown ? 'procedure/inputUnknown' : result.error.code, where, result.error.at);
    return 0;
  }
}

const TAKEN: ReadonlySet<string> = new Set([
  ...EXPRESSION_UNITS,
  ...EXPRESSION_FUNCTIONS,
  ...['in', 'to', 'mod', 'and', 'or', 'not', 'xor', 'true', 'false', 'null', 'undefined', 'end'],
]);

/** Checks the inputs' names and limits, and makes measures of the given values. */
function inputMeasures(
  procedure: Procedure,
  given: ReadonlyMap<string, number>,
): { readonly measures: InputValues; readonly faults: readonly ProcedureFault[] } {
  const measures = new Map<string, Measure>();
  const limits = new Resolver(new Map(), new Set());
  const seen = new Set<string>();
  for (const input of procedure.inputs) {
    const where = `inputs.${input.name}`;
    if (seen.has(input.name) || TAKEN.has(input.name)) limits.fault('procedure/nameTaken', where, input.name);
    seen.add(input.name);
    const least = limits.value(input.least, input.quantity, `${where}.least`);
    const most = limits.value(input.most, input.quantity, `${where}.most`);
    if (least > most) limits.fault('procedure/limitsCrossed', where, `${input.least}, ${input.most}`);
    const value = given.get(input.name);
    if (value === undefined) continue;
    if (!(value >= least && value <= most)) limits.fault('procedure/inputOutOfLimits', where, input.name);
    measures.set(input.name, input.quantity === 'length' ? lengthOf(value) : angleOf(value));
  }
  return { measures, faults: limits.faults };
}

/** Two-sided, unequal or one-sided limits as signed deviations; undefined when nothing limits the coordinate. */
function permitted(
  resolver: Resolver,
  tolerance: ProcedureTolerance,
  quantity: 'length' | 'angle',
  where: string,
  required: number,
): PermittedDeviation | undefined {
  const limit = (text: string, sign: 1 | -1, mayBeZero: boolean): number => {
    const before = resolver.faults.length;
    const value = resolver.value(text, quantity, where);
    if (resolver.faults.length > before) return value;
    const outward = value * sign;
    if (outward < 0 || (outward === 0 && !mayBeZero)) resolver.fault('procedure/toleranceSign', where, text);
    return value;
  };
  switch (tolerance.kind) {
    case 'twoSided': {
      const upper = limit(tolerance.limit, 1, false);
      return { lower: -upper, upper, stated: true };
    }
    case 'unequal': {
      const lower = limit(tolerance.lower, -1, true);
      const upper = limit(tolerance.upper, 1, true);
      if (lower === upper) resolver.fault('procedure/toleranceSign', where, tolerance.upper);
      return { lower, upper, stated: true };
    }
    case 'lowerOnly':
      return { lower: limit(tolerance.lower, -1, true), stated: true };
    case 'upperOnly':
      return { upper: limit(tolerance.upper, 1, true), stated: true };
    case 'range': {
      const before = resolver.faults.length;
      const lower = resolver.value(tolerance.least, quantity, where) - required;
      const upper = resolver.value(tolerance.most, quantity, where) - required;
      const texts = `${tolerance.least}, ${tolerance.most}`;
      if (resolver.faults.length > before) return { lower, upper, stated: true };
      if (lower >= upper) resolver.fault('procedure/limitsCrossed', where, texts);
      else if (lower > 0 || upper < 0) resolver.fault('procedure/toleranceSign', where, texts);
      return { lower, upper, stated: true };
    }
    case 'notStated': {
      if (tolerance.workingLimit === null) return undefined;
      const upper = limit(tolerance.workingLimit, 1, false);
      return { lower: -upper, upper, stated: false };
    }
  }
}

function resolveCoordinate<D extends string>(
  resolver: Resolver,
  station: ProcedureStation,
  coordinate: Coordinate,
  from: D,
): { readonly value: number; readonly from: D; readonly permitted?: PermittedDeviation } {
  const where = `stations.${station.id}.${coordinate}`;
  const quantity = isAngleCoordinate(coordinate) ? 'angle' : 'length';
  const written = station[coordinate];
  const value = resolver.value(written.value, quantity, where);
  const deviation = permitted(resolver, written.tolerance, quantity, `${where}.tolerance`, value);
  return deviation === undefined ? { value, from } : { value, from, permitted: deviation };
}

function resolveStation(resolver: Resolver, station: ProcedureStation): StationRequirement {
  return {
    id: station.id,
    kind: station.kind,
    place: station.place,
    ahead: resolveCoordinate(resolver, station, 'ahead', station.ahead.from),
    left: resolveCoordinate(resolver, station, 'left', station.left.from),
    up: resolveCoordinate(resolver, station, 'up', station.up.from),
    yaw: resolveCoordinate(resolver, station, 'yaw', station.yaw.from),
    pitch: resolveCoordinate(resolver, station, 'pitch', station.pitch.from),
    roll: resolveCoordinate(resolver, station, 'roll', station.roll.from),
    free: station.free,
    ...radialOf(resolver, station),
  };
}

/** The circle a station permits, if any; its radius is a length above zero. */
function radialOf(resolver: Resolver, station: ProcedureStation): Pick<StationRequirement, 'radial'> {
  const { radial } = station;
  if (radial === undefined) return {};
  const where = `stations.${station.id}.radial`;
  const before = resolver.faults.length;
  const radiusMm = resolver.value(radial.limit, 'length', where);
  if (radiusMm <= 0 && resolver.faults.length === before) {
    resolver.fault('procedure/toleranceSign', where, radial.limit);
  }
  return { radial: { plane: radial.plane, radiusMm, stated: radial.stated } };
}

/** Agreement of a slide with the stand it slides on, mm or radians: far below anything a tape can show. */
const SLIDE_AGREEMENT = 1e-9;

/** A slide inherits the bar's pose, so everything but its side coordinate must be that of the stand before it. */
function checkSlides(resolver: Resolver, stations: readonly StationRequirement[]): void {
  let base: StationRequirement | undefined;
  for (const station of stations) {
    if (station.kind === 'reposition') {
      base = station;
      continue;
    }
    const where = `stations.${station.id}`;
    if (base === undefined) {
      resolver.fault('procedure/slideWithoutBase', where, station.id);
      continue;
    }
    for (const coordinate of COORDINATES) {
      const differs =
        Math.abs(station[coordinate].value - base[coordinate].value) > SLIDE_AGREEMENT ||
        station[coordinate].from !== base[coordinate].from;
      if (coordinate !== 'left' && differs) resolver.fault('procedure/slideMoves', where, coordinate);
    }
  }
}

/**
 * Numbers for one car. `inputs` holds what was measured on it by name, lengths in mm and angles in radians.
 * Gives every fault found, or the stations: `resolveProcedure(procedure, new Map([['reach', 870]]))`.
 */
export function resolveProcedure(
  procedure: Procedure,
  inputs: ReadonlyMap<string, number>,
): Result<ResolvedProcedure, readonly ProcedureFault[]> {
  const { measures, faults } = inputMeasures(procedure, inputs);
  const resolver = new Resolver(measures, new Set(procedure.inputs.map((input) => input.name)));
  const stations = procedure.stations.map((station) => resolveStation(resolver, station));
  const at = procedure.sensorAt;
  const sensor =
    at === null
      ? undefined
      : {
          aheadMm: resolver.value(at.ahead, 'length', 'sensorAt.ahead'),
          leftMm: resolver.value(at.left, 'length', 'sensorAt.left'),
          upMm: resolver.value(at.up, 'length', 'sensorAt.up'),
        };
  if (faults.length + resolver.faults.length === 0) checkSlides(resolver, stations);
  const all = [...faults, ...resolver.faults];
  return all.length > 0 ? err(all) : ok({ stations, sensor });
}
