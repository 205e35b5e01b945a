/**
 * Impact: a stored job solved again with what is now known to be wrong put right, beside what it said. Which verdicts turn
 * is what the owners of the cars must be told. Pure: nothing stored is changed.
 */
import type { RadialFinding, StationFinding, VerdictName } from '../placement/finding.ts';
import type { PlacementAnswer } from '../placement/placementAnswer.ts';
import { err, ok, type Result } from '../result.ts';
import { type Correction, correctJob } from './correction.ts';
import type { Job } from './job.ts';
import { type JobEvent, reduce } from './reduce.ts';
import { type SolveError, solveJob } from './solve.ts';

/** One coordinate, or the circle, of a station: what is judged. */
export type JudgedName = StationFinding['coordinates'][number]['coordinate'] | 'radial';

/** A verdict with its grounds. mm or radians. */
export interface JudgedValue {
  readonly deviation: number;
  readonly u: number;
  readonly verdict: VerdictName;
}

/** What was judged before and after; absent where a station was not found, or is found no more. */
export interface JudgedChange {
  readonly sensor: string;
  readonly station: string;
  readonly judged: JudgedName;
  readonly before?: JudgedValue;
  readonly after?: JudgedValue;
  /** True when the verdict is another one. */
  readonly turned: boolean;
}

/** A sensor that could be solved before or after, but not both. */
export interface SensorTrouble {
  readonly sensor: string;
  readonly when: 'before' | 'after';
  readonly error: SolveError;
}

/** What a correction means for one job. */
export interface Impact {
  readonly job: string;
  readonly reference: string;
  /** False when the correction concerns nothing in this job: then nothing below can have changed. */
  readonly touched: boolean;
  /** Everything judged, in the order of sensors, stations and coordinates. */
  readonly judged: readonly JudgedChange[];
  readonly turned: readonly JudgedChange[];
  /** The global test before and after, by sensor, where it turned. */
  readonly agreement: readonly {
    readonly sensor: string;
    readonly before: boolean;
    readonly after: boolean;
  }[];
  readonly troubles: readonly SensorTrouble[];
}

/** Why there is no impact to tell. */
export type ImpactError = { readonly code: 'impact/notAJob' };

type Judged = ReadonlyMap<
  string,
  { readonly station: string; readonly judged: JudgedName; readonly value: JudgedValue }
>;

const radialValue = ({ distanceMm, u, verdict }: RadialFinding): JudgedValue => ({
  deviation: distanceMm,
  u,
  verdict,
});

/** What was judged of the stations that were found; one that is only expected is no finding. */
function judgedOf(answer: PlacementAnswer | undefined): Judged {
  const judged = new Map<string, { station: string; judged: JudgedName; value: JudgedValue }>();
  for (const { station, basis, coordinates, radial } of answer?.stations ?? []) {
    if (basis !== 'found') continue;
    for (const { coordinate, deviation, u, verdict } of coordinates) {
      judged.set(`${station}/${coordinate}`, {
        station,
        judged: coordinate,
        value: { deviation, u, verdict },
      });
    }
    if (radial === undefined) continue;
    judged.set(`${station}/radial`, { station, judged: 'radial', value: radialValue(radial) });
  }
  return judged;
}

function compare(sensor: string, was: Judged, is: Judged): readonly JudgedChange[] {
  return [...new Set([...was.keys(), ...is.keys()])].flatMap((key) => {
    const [before, after] = [was.get(key), is.get(key)];
    const named = before ?? after;
    if (named === undefined) return [];
    return [
      {
        sensor,
        station: named.station,
        judged: named.judged,
        ...(before === undefined ? {} : { before: before.value }),
        ...(after === undefined ? {} : { after: after.value }),
        turned: before?.value.verdict !== after?.value.verdict,
      },
    ];
  });
}

/** Solves a job before and after the corrections, made in their order. */
export function impactOnJob(job: Job, corrections: readonly Correction[]): Impact {
  let corrected = job;
  let touched = false;
  for (const correction of corrections) {
    const next = correctJob(corrected, correction);
    corrected = next.job;
    touched ||= next.touched;
  }
  const judged: JudgedChange[] = [];
  const troubles: SensorTrouble[] = [];
  const agreement: Impact['agreement'][number][] = [];
  for (const sensor of job.sensors) {
    if (sensor.disposition !== 'staticHere') continue;
    const after = corrected.sensors.find((each) => each.sensor === sensor.sensor) ?? sensor;
    const [was, is] = [solveJob(job, sensor), solveJob(corrected, after)];
    if (!was.ok) troubles.push({ sensor: sensor.sensor, when: 'before', error: was.error });
    if (!is.ok) troubles.push({ sensor: sensor.sensor, when: 'after', error: is.error });
    const [wasAnswer, isAnswer] = [was.ok ? was.value : undefined, is.ok ? is.value : undefined];
    judged.push(...compare(sensor.sensor, judgedOf(wasAnswer), judgedOf(isAnswer)));
    const passed = [wasAnswer, isAnswer].map((answer) => answer?.globalTest?.passed ?? true);
    const [before = true, now = true] = passed;
    if (before !== now) agreement.push({ sensor: sensor.sensor, before, after: now });
  }
  const turned = judged.filter((each) => each.turned);
  return { job: job.id, reference: job.reference, touched, judged, turned, agreement, troubles };
}

/** The same from a job's stored events. */
export function impactOf(
  events: readonly JobEvent[],
  corrections: readonly Correction[],
): Result<Impact, ImpactError> {
  const job = reduce(events);
  return job === undefined ? err({ code: 'impact/notAJob' }) : ok(impactOnJob(job, corrections));
}
