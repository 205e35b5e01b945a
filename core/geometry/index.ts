/** Points, lines, planes, rotations and best fits, without units or frames of their own. */
export { type Alignment, alignVectors } from './alignment.ts';
export { type CircleMeeting, circlesMeet } from './circles.ts';
export { type LineFit, lineFit } from './lineFit.ts';
export { distanceToPlane, type NoPlane, type PlaneFit, planeFit } from './plane.ts';
export { moveInPlan, type PlanMotion, planFit } from './planFit.ts';
export {
  heading,
  type LinePosition,
  type PlanLine,
  planLineThrough,
  pointAt,
  positionOn,
} from './planLine.ts';
export { move, type RigidMotion, rigidFit } from './rigidFit.ts';
export {
  matrixFromQuaternion,
  rotate,
  rotateBack,
  rotationMatrix,
  type YawPitchRoll,
  yawPitchRoll,
} from './rotation.ts';
export { rotationOfTurn, turnChange, turnOfRotation } from './turn.ts';
export { add, centroid, cross, inner, length, scaled, subtract, type Vec2, type Vec3 } from './vector.ts';
