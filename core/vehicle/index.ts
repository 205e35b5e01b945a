/** The car: its frame, the lines a procedure measures from, its wheels and how it stands. */
export {
  attitudeFromRideHeights,
  type BodyAttitude,
  type BodyCorner,
  type BodyCornersError,
  bodyAttitude,
  effectAtSensor,
  type KnownMm,
  type RideHeight,
  type SensorEffect,
} from './bodyAttitude.ts';
export { type BodyMark, type BodyMarkDatum, centrelineFromBodyMarks } from './bodyMarks.ts';
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
  centrelineFromHubs,
  type DatumError,
  type DatumLine,
  type DatumSource,
  type KnownHeading,
  lineFromRearAxle,
  type SideKnowledge,
  sideKnowledge,
  thrustLineFromHeadings,
} from './datumLine.ts';
export {
  type FixtureSetting,
  type FixtureSettingError,
  type FixtureSettingInput,
  fixtureSetting,
  type RequiredTarget,
} from './fixtureSetting.ts';
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
  independentPlaces,
  type JointInputs,
  joined,
  jointInputs,
  type KnownPlaces,
  type PlanPlace,
  placeInputs,
} from './knownPlaces.ts';
export {
  type AlignmentReport,
  differenceAtMm,
  headingOf,
  type LineDifference,
  lineDifference,
  type ReportError,
  thrustLineFromReport,
} from './lineDifference.ts';
export { differenceSentence, type Sentence, settingSentences } from './lineWords.ts';
export {
  type LoadedRadiusError,
  loadedRadii,
  loadedRadiusOfSize,
  radiusChangeByPressure,
  type TyreMismatch,
  tyreMismatch,
  type WheelPlaces,
} from './loadedRadius.ts';
export { loadOfIndexKg, speedOfSymbolKmh } from './loadIndex.ts';
export {
  type Compensated,
  type HalfTurnPair,
  type RearHeading,
  rearHeading,
  runOutLeftRad,
  withoutRunOut,
} from './runOut.ts';
export {
  type SideDemand,
  type SideMeans,
  type SidePrediction,
  type SideProof,
  type SideSentence,
  sideProof,
  sideSentences,
} from './sideProof.ts';
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
  tyreDesignDiameterMm,
  tyreDiameterMm,
  tyreSectionHeightMm,
} from './tyre.ts';
export { checkVin, type VinKey, type VinNote, type VinReport, vinCheckDigit, vinProducts } from './vin.ts';
export {
  type AxleGeometry,
  axleGeometry,
  axleHeading,
  type KnownAngle,
  type RimQuality,
  type WheelReadings,
} from './wheelGeometry.ts';
