/** The bay: its floor as heights and as a plane. */
export {
  type FloorError,
  type FloorPlane,
  fitFloorPlane,
  heightsAbovePlane,
  planeHeightMm,
  planeNormal,
} from './floorPlane.ts';
export { floorFallMm, floorHeightMm, floorRiseMm } from './staff.ts';
