/** Which station something missing belongs to, by the key that assessment gave it. Pure. */

/** Where the stations' control readings are entered: after the last station. */
export const CONTROL = 'control';

/**
 * The station of a key: `reading:slide@east` and `capture@fc/east` and `stations.conditionsHold@fc/east/` belong to
 * `east`. A reading of no station is a control. Undefined for anything that is not of a station.
 */
export function stationOfKey(key: string, stations: readonly string[]): string | undefined {
  const place = key.slice(key.indexOf('@') + 1);
  const parts = place.split('/');
  const named = stations.find((station) => parts.includes(station));
  if (named !== undefined) return named;
  return key.startsWith('reading:') && place === '' ? CONTROL : undefined;
}
