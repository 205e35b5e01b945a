/** Stations: one after another the target at its required place, proven, then captured on the maker's scan tool. */
import { type ReactNode, useCallback, useState } from 'react';
import type { JobSensor } from '../../../core/job/job.ts';
import { stageById } from '../../../core/job/stages/index.ts';
import type { ProcedureStation } from '../../../core/procedure/schema.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import type { Slot } from '../../state/readings.ts';
import { useSensorInSight } from '../../state/sensorInSight.ts';
import { CONTROL, stationOfKey } from '../../state/stationOfKey.ts';
import { useWindow } from '../../state/windowContext.tsx';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { Cautions } from '../fields/Cautions.tsx';
import { NoSensorYet } from '../fields/NoSensorYet.tsx';
import { SensorTabs } from '../fields/SensorTabs.tsx';
import { BodyMoved } from '../readings/BodyMoved.tsx';
import { ReadingDesk } from '../readings/ReadingDesk.tsx';
import { StationSide } from './StationSide.tsx';

function firstOpen(held: HeldJob, sensor: JobSensor, stations: readonly ProcedureStation[]): string {
  const captured = (station: string): boolean =>
    held.job.captures.some(
      (each) => each.sensor === sensor.sensor && each.station === station && each.result === 'passed',
    );
  return stations.find((each) => !captured(each.id))?.id ?? stations.at(-1)?.id ?? CONTROL;
}

function SensorStations({ held, sensor }: { readonly held: HeldJob; readonly sensor: JobSensor }): ReactNode {
  const stations = sensor.procedure?.stations ?? [];
  // Chosen once when the stage is opened: nothing advances by itself under the person's hands.
  const focus = useWindow((state) => state.focus);
  const ids = stations.map((each) => each.id);
  const [current, setCurrent] = useState(
    () => (focus === null ? undefined : stationOfKey(focus, ids)) ?? firstOpen(held, sensor, stations),
  );
  const only = useCallback(
    (slot: Slot) => (current === CONTROL ? slot.spec.station === undefined : slot.spec.station === current),
    [current],
  );
  const station = stations.find((each) => each.id === current);
  const slides = stations.some((each) => each.kind === 'slide');
  const tabs = [
    ...stations.map((each) => ({ value: each.id, text: each.name })),
    ...(slides ? [{ value: CONTROL, text: say('stations.control') }] : []),
  ];
  return (
    <div className="stations">
      <div className="stations-tabs">
        <SensorTabs held={held} />
        <ChoiceButtons
          label={say('stations.label')}
          testId="stations"
          items={tabs}
          chosen={[current]}
          onChoose={([next]) => setCurrent(next ?? current)}
        />
      </div>
      <ReadingDesk
        key={`${sensor.sensor} ${current}`}
        held={held}
        sensor={sensor}
        stage="stations"
        only={only}
        {...(station === undefined ? {} : { station: station.id })}
        foot={<BodyMoved held={held} bodies={['fixture', 'car']} />}
        side={(facts) => (
          <StationSide
            held={held}
            sensor={sensor}
            station={station}
            facts={facts}
            onControl={() => setCurrent(CONTROL)}
          />
        )}
      />
    </div>
  );
}

export function StationsScreen({ held }: { readonly held: HeldJob }): ReactNode {
  const stage = stageById('stations');
  const sensor = useSensorInSight(held);
  if (sensor === undefined) return <NoSensorYet held={held} stage={stage} />;
  return (
    <>
      <Cautions keys={stage.cautions} />
      <SensorStations key={sensor.sensor} held={held} sensor={sensor} />
    </>
  );
}
