/** The kinds of sensor that are calibrated here. */
import { z } from 'zod';

export const sensorKindSchema = z.enum(['forwardCamera', 'frontRadar', 'cornerRadar', 'surroundCamera']);
export type SensorKind = z.infer<typeof sensorKindSchema>;
