/** Which sensor is looked at, where a job has several to place. */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { lookAtSensor, sensorsHere, useSensorInSight } from '../../state/sensorInSight.ts';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';

export function SensorTabs({ held }: { readonly held: HeldJob }): ReactNode {
  const here = sensorsHere(held);
  const inSight = useSensorInSight(held);
  if (here.length < 2 || inSight === undefined) return null;
  return (
    <ChoiceButtons
      label={say('sensor.inSight')}
      items={here.map((sensor) => ({ value: sensor.sensor, text: sensor.name }))}
      chosen={[inSight.sensor]}
      onChoose={([sensor]) => {
        if (sensor !== undefined) lookAtSensor(held.job.id, sensor);
      }}
    />
  );
}
