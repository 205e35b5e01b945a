/** The bay: its floor as heights and as a plane. */
export {
  FLATNESS_STEP_MM,
  type FlatnessEdition,
  type FlatnessLine,
  flatnessOfLine,
  LEAST_HEIGHTS,
  type LineSpread,
  type LineTooShort,
} from './flatness.ts';
export {
  type FloorError,
  type FloorPlane,
  fitFloorPlane,
  heightsAbovePlane,
  planeHeightMm,
  planeNormal,
} from './floorPlane.ts';
export {
  type Illuminance,
  illuminance,
  type LightError,
  type LuxMeterClass,
  luxUncertainty,
} from './light.ts';
export { type FloorPlace, type ResidualSurface, residualSurface } from './residualSurface.ts';
export { floorFallMm, floorHeightMm, floorRiseMm } from './staff.ts';
