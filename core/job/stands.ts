/**
 * Which readings of a job belong to which stand of the fixture. A stand is a reposition station of one sensor with its
 * slides. The journal says when the fixture was put up for another one; before any was named it is at the first.
 */

import type { SetUps } from '../placement/placementReading.ts';
import type { StationRequirement } from '../placement/requirement.ts';
import { stationsByStand } from '../placement/stands.ts';
import { type Job, type RecordedSetUps, standKey } from './job.ts';

/** One stand: its stations, the set-ups its readings belong to, and whether the fixture is there now. */
export interface Stand {
  readonly id: string;
  readonly stations: readonly StationRequirement[];
  readonly setUps: SetUps;
  /** First set-up of the fixture at this stand; floor heights under it were read from then on. */
  readonly from: number;
  readonly isNow: boolean;
}

/** A set-up number no reading has: the fixture was never put up here. */
const NEVER = 0;

function setUpsAt(job: Job, key: string, isFirst: boolean): Pick<Stand, 'from' | 'isNow'> & RecordedSetUps {
  const { setUps } = job;
  const present = { fixture: setUps.fixture, from: setUps.from ?? 1, isNow: true, ...sinceOf(setUps) };
  if (setUps.standNow === key || (isFirst && setUps.standNow === undefined)) return present;
  const left = setUps.leftStands?.[key] ?? (isFirst ? setUps.leftStands?.[''] : undefined);
  return left === undefined ? { fixture: NEVER, from: NEVER, isNow: false } : { ...left, isNow: false };
}

const sinceOf = ({ fixtureSince }: Pick<SetUps, 'fixtureSince'>) =>
  fixtureSince === undefined ? {} : { fixtureSince };

/** The stands of one sensor in the order of its procedure. */
export function standsOf(
  job: Job,
  sensor: string,
  stations: readonly StationRequirement[],
): readonly Stand[] {
  return stationsByStand(stations).flatMap((group, index) => {
    const [placed] = group;
    if (placed === undefined) return [];
    const key = standKey({ sensor, station: placed.id });
    const { from, isNow, fixture, fixtureSince } = setUpsAt(job, key, index === 0);
    return [
      {
        id: placed.id,
        stations: group,
        setUps: {
          car: job.setUps.car,
          fixture,
          ...sinceOf(fixtureSince === undefined ? {} : { fixtureSince }),
        },
        from,
        isNow,
      },
    ];
  });
}

/**
 * Whether a reading may belong to a stand. Floor heights under the fixture outlast its moves but not its going away; what
 * depends on the fixture is told apart by its set-up later. While no stand was named everything belongs to the first.
 */
export function mayBelong(
  job: Job,
  stand: Pick<Stand, 'from' | 'setUps'>,
  reading: { readonly quantity: string; readonly fixtureSetUp: number },
): boolean {
  if (!/^floor\.(fixture|stand)/.test(reading.quantity) || job.setUps.standNow === undefined) return true;
  return reading.fixtureSetUp >= stand.from && reading.fixtureSetUp <= stand.setUps.fixture;
}
