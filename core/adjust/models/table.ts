/** The kinds of reading the adjuster understands. A new kind is one file in this folder and one line here. */
import { alongSchema } from './along.ts';
import { angleSchema } from './angle.ts';
import { constraintSchema } from './constraint.ts';
import { coordinateSchema } from './coordinate.ts';
import { distanceSchema } from './distance.ts';
import { dropSchema } from './drop.ts';
import { heightSchema } from './height.ts';
import { offsetSchema } from './offset.ts';
import { tiltSchema } from './tilt.ts';

export const readingSchemas = [
  dropSchema,
  distanceSchema,
  offsetSchema,
  alongSchema,
  angleSchema,
  heightSchema,
  tiltSchema,
  coordinateSchema,
  constraintSchema,
] as const;
