/**
 * A tape reading as the adjuster takes it: the class limit split into what all readings of that tape share and what
 * each has for itself, the set-up on the marks, repeatability and the step of the scale.
 */
import type { Reading, Shared } from '../adjust/network.ts';
import {
  defaultUncertainties,
  hookUncertaintyMm,
  tapeUncertainty,
  type WorkUncertainties,
} from './defaults.ts';
import type { SlotValue } from './readings.ts';

/** Half a step either way, rectangular: step / root 12 (JCGM 100:2008, F.2.2.1). */
const STEP_DIVISOR = Math.sqrt(12);
/** Step of a tape that says none, mm. */
const TAPE_STEP_MM = 1;

/** Standard uncertainty of one value and the degrees of freedom behind it. */
export interface ReadingU {
  readonly u: number;
  readonly dof: number;
}

/** u of repeats' mean: what repeats cannot lower, and the pooled repeatability over their number (JCGM 100 G.4 dof). */
export function meanOfRepeats(fixedParts: readonly number[], repeat: number, count: number): ReadingU {
  const repeated = (repeat * repeat) / count;
  const variance = fixedParts.reduce((sum, part) => sum + part * part, repeated);
  const dof = (variance * variance * defaultUncertainties.repeatDof) / (repeated * repeated);
  return { u: Math.sqrt(variance), dof };
}

/** The name that readings of one tape share. */
export const tapeName = (value: SlotValue): string => `tape:${value.instrument?.id ?? 'default'}`;

/** u of one tape value, without the shared scale and hook. */
export function tapeReadingU(value: SlotValue, work: WorkUncertainties): ReadingU {
  const { ownMm } = tapeUncertainty(value.instrument?.accuracyClass ?? work.tapeClass, value.value);
  const stepMm = (value.instrument?.resolution ?? TAPE_STEP_MM) / STEP_DIVISOR;
  return meanOfRepeats([work.tapeSetMm, ownMm, stepMm], work.tapeRepeatMm, value.count);
}

/** The shared unknowns of every tape that was used. */
export function tapeUnknowns(values: readonly SlotValue[], work: WorkUncertainties): readonly Shared[] {
  const shared = new Map<string, Shared>();
  for (const value of values) {
    const tapeClass = value.instrument?.accuracyClass ?? work.tapeClass;
    const scale = `${tapeName(value)}:scale`;
    const { scale: u } = tapeUncertainty(tapeClass, 0);
    shared.set(scale, { id: scale, quantity: 'ratio', is: { state: 'known', value: 0, u } });
    if (value.instrument?.hook !== true) continue;
    const hook = `${tapeName(value)}:hook`;
    const uMm = hookUncertaintyMm(tapeClass);
    shared.set(hook, { id: hook, quantity: 'length', is: { state: 'known', valueMm: 0, uMm } });
  }
  return [...shared.values()];
}

/** A distance along the floor between two points, read with a tape. */
export function tapeDistance(
  id: string,
  value: SlotValue,
  from: string,
  to: string,
  work: WorkUncertainties,
): Reading {
  const { u, dof } = tapeReadingU(value, work);
  return {
    kind: 'distance',
    id,
    instrument: tapeName(value),
    from,
    to,
    mode: 'floor',
    valueMm: value.value,
    uMm: u,
    dof,
    scale: `${tapeName(value)}:scale`,
    ...(value.instrument?.hook === true ? { zero: `${tapeName(value)}:hook` } : {}),
  };
}
