/** The fields of the bay's table that have a place of their own on the screen; all others are in the form. */

import { LIGHT_FIELDS } from '../../../core/job/lightAtFive.ts';
import { CAR_SIZE_FIELDS, PARKED_FIELDS } from '../../../core/job/parking.ts';
import type { Field } from '../../../core/job/stages/index.ts';
import type { BayPartName } from './BayPart.tsx';

const OWN: ReadonlySet<string> = new Set<string>([
  ...LIGHT_FIELDS,
  ...CAR_SIZE_FIELDS,
  ...PARKED_FIELDS,
  'bay.rolling',
  'bay.luxMeterClass',
  'bay.lightUniformity',
  'bay.overdueReason',
]);

/** Whether a field stands in the form of the floor's part. */
export const isFormField = (field: Field): boolean => !OWN.has(field.id);

/** The part of the stage in which a field of the bay stands, by its key; undefined for one of another stage. */
export function partOfField(key: string): BayPartName | undefined {
  const [field = ''] = key.split('@');
  if (!field.startsWith('bay.')) return undefined;
  if (field === 'bay.overdueReason') return 'due';
  if (LIGHT_FIELDS.some((each) => each === field) || field === 'bay.luxMeterClass') return 'light';
  const ofSpace: readonly string[] = [...PARKED_FIELDS, ...CAR_SIZE_FIELDS, 'bay.rolling'];
  return ofSpace.includes(field) ? 'space' : 'floor';
}
