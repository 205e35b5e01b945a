/**
 * Where the fixture of each rehearsal has got to. It is the bay, not the record: kept on this PC only, and never read by
 * anything that judges the person's work.
 */
import { useMemo } from 'react';
import { create } from 'zustand';
import type { Job } from '../../core/job/job.ts';
import type { StationRequirement } from '../../core/placement/requirement.ts';
import { type RehearsalState, startState } from '../../core/rehearsal/index.ts';

interface Rehearsals {
  readonly byJob: Readonly<Record<string, RehearsalState>>;
}

export const useRehearsals = create<Rehearsals>(() => ({ byJob: {} }));

const keptKey = (job: string): string => `datumline.rehearsal.${job}`;

const POSE = ['ahead', 'left', 'up', 'yaw', 'pitch', 'roll'] as const;

/** What was kept; undefined for anything that is not a whole state. */
export function stateOf(kept: string | null): RehearsalState | undefined {
  try {
    const read: unknown = JSON.parse(kept ?? '');
    if (typeof read !== 'object' || read === null || !('seed' in read) || !('pose' in read)) return undefined;
    const { seed, pose } = read;
    if (typeof seed !== 'number' || !Number.isInteger(seed) || seed < 0 || seed > 0xffffffff)
      return undefined;
    if (typeof pose !== 'object' || pose === null) return undefined;
    const numbers = Object.fromEntries(Object.entries(pose));
    const values = POSE.map((each) => numbers[each]);
    if (!values.every((each) => typeof each === 'number' && Number.isFinite(each))) return undefined;
    const [ahead, left, up, yaw, pitch, roll] = values as readonly number[];
    return {
      seed,
      pose: {
        ahead: ahead ?? 0,
        left: left ?? 0,
        up: up ?? 0,
        yaw: yaw ?? 0,
        pitch: pitch ?? 0,
        roll: roll ?? 0,
      },
    };
  } catch {
    return undefined;
  }
}

/** The seed of a job: its id is random enough, and the same rehearsal can be looked at again. */
export function seedOf(job: string): number {
  return Number.parseInt(job.replaceAll('-', '').slice(-8), 16) >>> 0;
}

/** The bay of a rehearsal as it was left; a fixture just rolled up where nothing was kept. */
function rehearsalOf(job: string, station: StationRequirement): RehearsalState {
  return stateOf(globalThis.localStorage?.getItem(keptKey(job)) ?? null) ?? startState(station, seedOf(job));
}

export function keepRehearsal(job: string, state: RehearsalState): void {
  globalThis.localStorage?.setItem(keptKey(job), JSON.stringify(state));
  useRehearsals.setState(({ byJob }) => ({ byJob: { ...byJob, [job]: state } }));
}

/** The bay of a job as it stands now; undefined for a job that is no rehearsal, or has no station yet. */
export function useRehearsal(
  { id, rehearsal }: Pick<Job, 'id' | 'rehearsal'>,
  station: StationRequirement | undefined,
): RehearsalState | undefined {
  const held = useRehearsals((rehearsals) => rehearsals.byJob[id]);
  return useMemo(() => {
    if (!rehearsal || station === undefined) return undefined;
    return held ?? rehearsalOf(id, station);
  }, [id, rehearsal, station, held]);
}
