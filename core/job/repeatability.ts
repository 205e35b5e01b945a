/**
 * What a shop's own repeatability studies say, as it is kept with the shop and frozen with a job's equipment: one line a
 * study. Together they take the place of the stated default as soon as they have 20 degrees of freedom.
 */
import { z } from 'zod';
import { workUncertainties } from '../placement/defaults.ts';
import type { StudiedRepeatability, WorkClass } from '../placement/equipment.ts';
import { shopRepeatability } from '../repeatability/shopRepeatability.ts';

/** One study of tape readings: standard deviation of one reading by the same person, mm, with its degrees of freedom. */
export const tapeStudySchema = z.strictObject({
  s: z.number().finite().positive().max(100),
  dof: z.number().finite().positive().max(10_000),
  date: z.string().regex(/^\d{4}-\d{2}-\d{2}$/),
  /** Where the study can be looked up. */
  document: z.string().min(1).max(120),
});
export type TapeStudy = z.infer<typeof tapeStudySchema>;

/** Studies by what was read. */
export const repeatabilitySchema = z.strictObject({ tape: z.array(tapeStudySchema).min(1).max(20) });
export type Repeatability = z.infer<typeof repeatabilitySchema>;

/** The studies pooled, where they replace the default of this way of working; undefined while the default stands. */
export function studiedTape(
  repeatability: Repeatability | undefined,
  work: WorkClass,
): StudiedRepeatability | undefined {
  if (repeatability === undefined) return undefined;
  const { tapeRepeatMm, tapeRepeatDof } = workUncertainties({ work });
  const { s, dof, from } = shopRepeatability(repeatability.tape, { s: tapeRepeatMm, dof: tapeRepeatDof });
  return from === 'studies' ? { mm: s, dof } : undefined;
}
