/** What one sensor of a job needs of the bay, from its fields, procedure and equipment. */
import type { SpacePart } from '../../../core/bay/space/room.ts';
import type { Job, JobSensor } from '../../../core/job/job.ts';
import { carSizeOf } from '../../../core/job/parking.ts';
import { placementInput } from '../../../core/job/solve.ts';
import { ROLLING_MM, spaceParts } from '../../../core/job/spaceParts.ts';

/** The parts in the car's frame; undefined until the car's size is known. Stations count once their inputs are measured. */
export function partsOf(job: Job, sensor: JobSensor): readonly SpacePart[] | undefined {
  const size = carSizeOf(job);
  if (size === undefined) return undefined;
  const input = placementInput(job, sensor);
  const rolling = job.fields['bay.rolling']?.value;
  const nameOf = (id: string): string =>
    sensor.procedure?.stations.find((station) => station.id === id)?.name ?? id;
  return spaceParts({
    size,
    rollingMm: typeof rolling === 'number' ? rolling : ROLLING_MM,
    stations: input.ok
      ? input.value.stations.map((station) => ({ ...station, name: nameOf(station.id) }))
      : [],
    equipment: sensor.equipment,
    needs: sensor.procedure?.bay,
  });
}
