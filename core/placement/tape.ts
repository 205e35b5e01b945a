/**
 * A tape reading as the adjuster takes it: the class limit split into what all readings of that tape share and what
 * each has for itself, the set-up on the marks, repeatability and the step of the scale.
 */
import type { Reading, Shared } from '../adjust/network.ts';
import { type InstrumentUncertainty, tapeInstrument } from '../uncertainty/instruments.ts';
import { effectiveDof } from '../uncertainty/welchSatterthwaite.ts';
import { defaultUncertainties, type WorkUncertainties } from './defaults.ts';
import type { SlotValue } from './readings.ts';

/** Step of a tape that says none, mm. */
export const TAPE_STEP_MM = 1;

/** Standard uncertainty of one value and the degrees of freedom behind it. */
export interface ReadingU {
  readonly u: number;
  readonly dof: number;
}

/** u of repeats' mean: what repeats cannot lower, and the pooled repeatability over their number (JCGM 100 G.4 dof). */
export function meanOfRepeats(
  fixedParts: readonly number[],
  repeat: number,
  count: number,
  repeatDof: number = defaultUncertainties.repeatDof,
): ReadingU {
  const parts = fixedParts.map((u) => ({ u, dof: Number.POSITIVE_INFINITY }));
  const all = [...parts, { u: repeat / Math.sqrt(count), dof: repeatDof }];
  return { u: Math.sqrt(all.reduce((sum, { u }) => sum + u * u, 0)), dof: effectiveDof(all) };
}

/** The name that readings of one tape share. */
export const tapeName = (value: SlotValue): string => `tape:${value.instrument?.id ?? 'default'}`;

/** What the tape itself puts into a value, over the length read or another; its class is the instrument's or the work's. */
export function tapeOf(
  { instrument, value }: SlotValue,
  work: WorkUncertainties,
  lengthMm = value,
): InstrumentUncertainty {
  return tapeInstrument(instrument?.accuracyClass ?? work.tapeClass, lengthMm, {
    hook: instrument?.hook === true,
    stepMm: instrument?.resolution ?? TAPE_STEP_MM,
  });
}

/** u of one tape value, without the shared scale and hook. */
export function tapeReadingU(value: SlotValue, work: WorkUncertainties): ReadingU {
  const { tapeSetMm, tapeRepeatMm, tapeRepeatDof } = work;
  return meanOfRepeats([tapeSetMm, tapeOf(value, work).own], tapeRepeatMm, value.count, tapeRepeatDof);
}

/** The shared unknowns of every tape that was used. */
export function tapeUnknowns(values: readonly SlotValue[], work: WorkUncertainties): readonly Shared[] {
  const shared = new Map<string, Shared>();
  for (const value of values) {
    const { perUnit: u, offset: uMm } = tapeOf(value, work);
    const scale = `${tapeName(value)}:scale`;
    shared.set(scale, { id: scale, quantity: 'ratio', is: { state: 'known', value: 0, u } });
    if (value.instrument?.hook !== true) continue;
    const hook = `${tapeName(value)}:hook`;
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
