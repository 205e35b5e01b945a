/** The key under which a field's latest value stands: the field id and the place it belongs to. */

export interface FieldPlace {
  readonly sensor: string | null;
  readonly station: string | null;
  readonly item: string | null;
}

/** The whole job, no sensor, station or item. */
export const wholeJob: FieldPlace = { sensor: null, station: null, item: null };

/** A place of one sensor. */
export function atSensor(sensor: string): FieldPlace {
  return { sensor, station: null, item: null };
}

/** A place of one station of a sensor. */
export function atStation(sensor: string, station: string): FieldPlace {
  return { sensor, station, item: null };
}

/** A place of one condition or one measured input of a sensor's procedure. */
export function atItem(sensor: string, item: string): FieldPlace {
  return { sensor, station: null, item };
}

/** `prechecks.condition@fc//tyres`: one text per field and place, used as key of state and drafts. */
export function fieldKey(field: string, at: FieldPlace = wholeJob): string {
  if (at.sensor === null && at.station === null && at.item === null) return field;
  return `${field}@${at.sensor ?? ''}/${at.station ?? ''}/${at.item ?? ''}`;
}
