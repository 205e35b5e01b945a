/** Everything that follows from the readings so far. */
import type { StationFinding, VerdictName } from './finding.ts';
import type { FixtureFound, VehicleFound } from './found.ts';
import type { Move, NextAction } from './instruction.ts';
import type { PlacementError } from './placementError.ts';
import type { ReadingSlot } from './placementReading.ts';
import type {
  ControlFinding,
  GlobalTestFinding,
  ResidualFinding,
  SpreadFinding,
  SuspectFinding,
} from './readingFinding.ts';

/** How far the readings carry: nothing yet, the car, the car and the fixture. */
export type PlacementStage = 'nothing' | 'datum' | 'fixture';

/** Everything that follows from the readings so far. */
export interface PlacementAnswer {
  readonly stage: PlacementStage;
  readonly vehicle?: VehicleFound;
  readonly fixture?: FixtureFound;
  readonly stations: readonly StationFinding[];
  readonly worst?: VerdictName;
  /** While the global test fails these are hints: the next action then asks for a reading to be checked first. */
  readonly moves: readonly Move[];
  readonly nextAction: NextAction;
  /** What keeps a part of the answer away, such as a thrust line without rear toe or bar distances that close no triangle. */
  readonly problems: readonly PlacementError[];
  /** The next reading that is missing, in walking order. */
  readonly nextReading?: ReadingSlot;
  readonly missing: readonly ReadingSlot[];
  readonly controls: readonly ControlFinding[];
  readonly spreads: readonly SpreadFinding[];
  readonly suspects: readonly SuspectFinding[];
  /** Absent while nothing is redundant. */
  readonly globalTest?: GlobalTestFinding;
  readonly diagnostics: {
    readonly iterations: number;
    readonly redundancy: number;
    readonly residuals: readonly ResidualFinding[];
  };
}
