/** The readings of one stage on lanes: sums and distances each in one loop, the rest one by one. */
import { LaneDistances } from './laneDistances.ts';
import type { LaneReading, LaneReadings, LaneRow } from './laneRows.ts';
import type { LaneState } from './laneState.ts';
import { LaneSums } from './laneSums.ts';

/** Readings grouped by how they are evaluated. */
export class GroupedReadings {
  readonly distances: LaneDistances;
  private readonly sums: LaneSums;
  private readonly rows: readonly LaneRow[];

  constructor(readings: readonly LaneReading[]) {
    this.distances = new LaneDistances(readings.flatMap((one) => ('upright' in one ? [one] : [])));
    this.sums = new LaneSums(readings.flatMap((one) => ('terms' in one ? [one] : [])));
    this.rows = readings.flatMap((one) => (typeof one === 'function' ? [one] : []));
  }

  /** Adds the pulls of all; with `turning`, also writes the distances' second derivatives. The state is up to date. */
  write(state: LaneState, says: LaneReadings, turning: boolean): void {
    this.sums.write(state, says);
    this.distances.write(state, says, turning);
    for (const row of this.rows) row(state, says);
    state.gatherPulls();
  }
}
