/**
 * A network made ready to solve: laid out, ids looked up, numbers checked, one head per scalar observation. What is
 * known beforehand with a u is observed like a reading, after the readings.
 */
import { err, ok, type Result } from '../result.ts';
import { bindCorrelations, type CorrelatedRows, correlate } from './correlation.ts';
import type { AdjustError } from './errors.ts';
import type { Layout } from './layout.ts';
import { layOutAgain } from './layoutKept.ts';
import { Binder, isUsable } from './models/binder.ts';
import type { BoundReading, FullMatrix, RowHead } from './models/model.ts';
import { bindReading } from './models/table.ts';
import type { Network, Reading } from './network.ts';
import type { SourceKind } from './solution.ts';

/** One scalar observation and where it comes from. */
export interface Observation extends RowHead {
  readonly source: string;
  readonly kind: SourceKind;
  readonly instrument: string | undefined;
  readonly dof: number;
}

/** Everything the solver needs. */
export interface Problem {
  readonly network: Network;
  readonly layout: Layout;
  readonly observations: readonly Observation[];
  /** Readings in order; their rows come first. */
  readonly bound: readonly BoundReading[];
  /** Slots known beforehand with a u; one row each, after those of the readings. */
  readonly known: readonly number[];
  /** Rows with a joint covariance; all other rows are independent. */
  readonly groups: readonly CorrelatedRows[];
}

const KNOWN_KIND = {
  point: 'knownCoordinate',
  body: 'knownPose',
  bodyPoint: 'bodyPoint',
  shared: 'shared',
} as const;

/** Prepares a network, or names the first thing that is wrong with it. */
export function prepare(network: Network): Result<Problem, AdjustError> {
  const duplicate = duplicateId(network);
  if (duplicate !== undefined) {
    return err({ code: 'adjust/duplicateId', ids: [duplicate], cure: 'renameDuplicate' });
  }
  const layout = layOutAgain(network);
  const binder = new Binder(layout);
  const observations: Observation[] = [];
  const grouped: { readonly reading: Reading; readonly first: number; readonly covariance: FullMatrix }[] =
    [];
  const bound = network.readings.map((reading) => {
    binder.begin(reading.id);
    const one = bindReading(reading, binder);
    if (one.covariance !== undefined) {
      grouped.push({ reading, first: observations.length, covariance: one.covariance });
    }
    for (const head of one.heads) {
      observations.push({
        component: head.component,
        unit: head.unit,
        observed: head.observed,
        u: head.u,
        exact: head.exact === true,
        source: reading.id,
        kind: reading.kind,
        instrument: reading.instrument,
        dof: reading.dof ?? Number.POSITIVE_INFINITY,
      });
    }
    return one;
  });
  checkSides(network, binder);
  const known: number[] = [];
  layout.slots.forEach((slot, i) => {
    if (slot.prior.state !== 'known') return;
    known.push(i);
    observations.push({
      component: slot.component,
      unit: slot.unit,
      observed: slot.prior.value ?? Number.NaN,
      u: slot.prior.u,
      exact: false,
      source: slot.owner,
      kind: KNOWN_KIND[slot.of],
      instrument: undefined,
      dof: slot.prior.dof,
    });
  });
  const failure = binder.failures[0] ?? badNumber(observations, layout);
  if (failure !== undefined) return err(failure);
  const groups: CorrelatedRows[] = [];
  for (const { reading, first, covariance } of grouped) {
    const rows = covariance.map((_, i) => first + i);
    const one = correlate(reading.id, reading.kind, rows, covariance, observations);
    if ('error' in one) return err(one.error);
    groups.push(one.group);
  }
  const taken = new Set(groups.flatMap(({ rows }) => rows));
  const stated = bindCorrelations(network.correlations ?? [], observations, taken);
  if ('error' in stated) return err(stated.error);
  return ok({ network, layout, observations, bound, known, groups: [...groups, ...stated.groups] });
}

function duplicateId(network: Network): string | undefined {
  const seen = new Set<string>();
  const taken = (id: string): boolean => seen.size === seen.add(id).size;
  for (const point of network.points) if (taken(point.id)) return point.id;
  for (const body of network.bodies) {
    if (taken(body.id)) return body.id;
    for (const point of body.points) if (taken(point.id)) return point.id;
  }
  for (const shared of network.shared) if (taken(shared.id)) return shared.id;
  for (const reading of network.readings) if (taken(reading.id)) return reading.id;
  for (const group of network.correlations ?? []) if (taken(group.id)) return group.id;
  return undefined;
}

function checkSides(network: Network, binder: Binder): void {
  for (const side of network.sides) {
    binder.begin(side.point);
    binder.place(side.point);
    binder.pair(side.line.from, side.line.to);
  }
}

/** An uncertainty below this (a nanometre's thousandth) says "exact", which only a constraint may be. */
const NO_UNCERTAINTY = 1e-9;

function badNumber(observations: readonly Observation[], layout: Layout): AdjustError | undefined {
  for (const one of observations) {
    const id = one.source;
    if (!isUsable(one.observed) || !isUsable(one.u) || one.u < 0 || !(one.dof > 0)) {
      return { code: 'adjust/notFinite', ids: [id], cure: 'correctNumber' };
    }
    if (one.u < NO_UNCERTAINTY && one.exact !== true) {
      return { code: 'adjust/zeroUncertainty', ids: [id], cure: 'stateUncertainty' };
    }
  }
  const slot = layout.slots.find(({ prior }) => prior.value !== undefined && !isUsable(prior.value));
  return slot === undefined
    ? undefined
    : { code: 'adjust/notFinite', ids: [slot.owner], cure: 'correctNumber' };
}
