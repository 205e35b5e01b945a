/**
 * Everything placement is solved from. Lengths in millimetres, angles in radians, signs by ISO 8855 in the vehicle frame, whose
 * origin here is the foot, on the plane of the tyre contact patches, of the normal through the rear-axle midpoint, and whose
 * X is the centreline (rear-axle midpoint to front-axle midpoint). One input is one stand of the fixture: the station it is
 * placed for, and the slide stations served from the same bar pose.
 */
import type { BodyKind } from './bodies/readings.ts';
import type { LengthWithU, PlacementEquipment } from './equipment.ts';
import type { AimSource } from './finding.ts';
import type { PlacementReading, SetUps } from './placementReading.ts';
import type { DecisionRuleName, StationRequirement } from './requirement.ts';

/** Everything placement needs to know. Readings of older set-ups may be in it: they are left out by set-up. */
export interface PlacementInput {
  readonly readings: readonly PlacementReading[];
  readonly setUps: SetUps;
  readonly equipment: PlacementEquipment;
  /** The first is of kind `reposition`; slides follow. Empty: only the vehicle is solved. */
  readonly stations: readonly StationRequirement[];
  /** What carries the target; absent: a bar fixture. */
  readonly body?: BodyKind;
  readonly decisionRule: DecisionRuleName;
  /** Height of the front-most body point above the floor, where its plumb line starts. */
  readonly bodyFaceHeight?: LengthWithU;
  /** Where the sensor sits in the vehicle frame, for what a deviation means in its aim. */
  readonly sensor?: { readonly aheadMm: number; readonly leftMm: number; readonly upMm: number };
  /** How that sensor takes its aim; absent: as a camera does. */
  readonly aimSource?: AimSource;
}
