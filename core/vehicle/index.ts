/** The car: its frame and the lines a procedure measures from. */
export { camberFromRimRad, crossCamberRad } from './camber.ts';
export {
  leftOfCentrelineMm,
  linesDiffer,
  offsetFromLineMm,
  separationMm,
  thrustAngleRad,
  thrustSide,
  toeLengthMm,
  totalToeRad,
} from './datum.ts';
export {
  type AtWheels,
  type FrameError,
  midpoint,
  pointFromVehicle,
  pointToVehicle,
  rotationToVehicle,
  type VehicleFrame,
  vehicleFrame,
} from './frame.ts';
export {
  type Compensated,
  type HalfTurnPair,
  type RearHeading,
  rearHeading,
  runOutLeftRad,
  withoutRunOut,
} from './runOut.ts';
export {
  type AxleToe,
  axleHeadingRad,
  headingFromToeRad,
  type ThrustConvention,
  toeFromRimRad,
  toeFromRimUncertaintyRad,
  totalToeLengthMm,
} from './toe.ts';
export {
  parseTyreSize,
  type TyreError,
  type TyreSize,
  tyreCircumferenceMm,
  tyreDiameterMm,
  tyreSectionHeightMm,
} from './tyre.ts';
export { checkVin, type VinKey, type VinNote, type VinReport, vinCheckDigit, vinProducts } from './vin.ts';
