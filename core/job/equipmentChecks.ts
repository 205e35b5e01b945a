/**
 * A shop's own checks of its fixtures and targets between two calibrations. Two readings each, in mm, kept as they were
 * read; what they show is worked out here.
 *
 * Bar by reversal: the bar lies against a fixed stop and the mark of the target's centre is read on a fixed scale; then the
 * bar is turned end for end against the same stop and read again. Half the difference is how far the centre mark lies off
 * the middle of the bar: stop and scale drop out (reversal, common practice, no source).
 *
 * Target against a rule: the length that is stated for the target, and the same length on a steel rule.
 */
import { z } from 'zod';

const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);
const readMm = z.number().finite().min(-20_000).max(20_000);

export const equipmentCheckSchema = z.strictObject({
  kind: z.enum(['barByReversal', 'targetAgainstRule']),
  on: day,
  by: z.string().min(1).max(80),
  firstMm: readMm,
  secondMm: readMm,
  /** What may be found at most, either way. */
  limitMm: z.number().finite().positive().max(100),
});
export type EquipmentCheck = z.infer<typeof equipmentCheckSchema>;

/** As many as are kept of one thing; the oldest make way. */
export const MOST_CHECKS = 24;
export const equipmentChecksSchema = z.array(equipmentCheckSchema).max(MOST_CHECKS);

/**
 * What a check found, mm, without its way.
 *
 * @example a bar read 1000.4 and, turned, 999.6: its centre mark lies 0.4 mm off the middle.
 */
export function foundMm({ kind, firstMm, secondMm }: EquipmentCheck): number {
  const difference = Math.abs(firstMm - secondMm);
  return kind === 'barByReversal' ? difference / 2 : difference;
}

/** Rounding of two readings of a tenth must not turn a verdict, mm. */
const ROUNDING_MM = 1e-9;

/** Whether a check found no more than its limit; the limit itself counts as kept. */
export function keepsItsLimit(check: EquipmentCheck): boolean {
  return foundMm(check) <= check.limitMm + ROUNDING_MM;
}

/** The checks with one more, in the order of their days, the oldest left out where there are too many. */
export function withCheck(
  checks: readonly EquipmentCheck[],
  check: EquipmentCheck,
): readonly EquipmentCheck[] {
  return [...checks, check].sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0)).slice(-MOST_CHECKS);
}
