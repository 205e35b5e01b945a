/**
 * A tape reading as the adjuster takes it: the class limit split into what all readings of that tape share and what
 * each has for itself, the set-up on the marks, repeatability and the step of the scale.
 */
import type { Reading, Shared } from '../adjust/network.ts';
import { fromResolution } from '../uncertainty/quantity.ts';
import { effectiveDof } from '../uncertainty/welchSatterthwaite.ts';
import {
  defaultUncertainties,
  hookUncertaintyMm,
  splitTapeClass,
  type WorkUncertainties,
} from './defaults.ts';
import type { SlotValue } from './readings.ts';

/** Step of a tape that says none, mm. */
export const TAPE_STEP_MM = 1;

/** Standard uncertainty of one value and the degrees of freedom behind it. */
export interface ReadingU {
  readonly u: number;
  readonly dof: number;
}

/** u of repeats' mean: what repeats cannot lower, and the pooled repeatability over their number (JCGM 100 G.4 dof). */
export function meanOfRepeats(fixedParts: readonly number[], repeat: number, count: number): ReadingU {
  const parts = fixedParts.map((u) => ({ u, dof: Number.POSITIVE_INFINITY }));
  const all = [...parts, { u: repeat / Math.sqrt(count), dof: defaultUncertainties.repeatDof }];
  return { u: Math.sqrt(all.reduce((sum, { u }) => sum + u * u, 0)), dof: effectiveDof(all) };
}

/** The name that readings of one tape share. */
export const tapeName = (value: SlotValue): string => `tape:${value.instrument?.id ?? 'default'}`;

/** u of one tape value, without the shared scale and hook. */
export function tapeReadingU(value: SlotValue, work: WorkUncertainties): ReadingU {
  const { ownMm } = splitTapeClass(value.instrument?.accuracyClass ?? work.tapeClass, value.value);
  const stepMm = fromResolution(value.instrument?.resolution ?? TAPE_STEP_MM);
  return meanOfRepeats([work.tapeSetMm, ownMm, stepMm], work.tapeRepeatMm, value.count);
}

/** The shared unknowns of every tape that was used. */
export function tapeUnknowns(values: readonly SlotValue[], work: WorkUncertainties): readonly Shared[] {
  const shared = new Map<string, Shared>();
  for (const value of values) {
    const tapeClass = value.instrument?.accuracyClass ?? work.tapeClass;
    const scale = `${tapeName(value)}:scale`;
    const { scale: u } = splitTapeClass(tapeClass, 0);
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
