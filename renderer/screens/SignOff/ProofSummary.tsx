/** What a signer stands for: each sensor with its stations and their verdicts, coordinate by coordinate. */
import type { ReactNode } from 'react';
import { verdictShape } from '../../../core/certificate/coordinateText.ts';
import type { Answers } from '../../../core/job/assess.ts';
import type { JobSensor } from '../../../core/job/job.ts';
import type { StationFinding } from '../../../core/placement/finding.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { VerdictMark } from '../../ui/VerdictMark.tsx';

function StationRow({
  sensor,
  station,
}: {
  readonly sensor: JobSensor;
  readonly station: StationFinding;
}): ReactNode {
  const name =
    sensor.procedure?.stations.find((each) => each.id === station.station)?.name ?? station.station;
  return (
    <tr data-station={station.station}>
      <th scope="row">{name}</th>
      {station.coordinates.map((each) => (
        <td key={each.coordinate}>
          {station.basis === 'found' ? (
            <VerdictMark kind={verdictShape(each.verdict)} words={say(`verdict.short.${each.verdict}`)} />
          ) : (
            <span className="quiet">{say('summary.notRead')}</span>
          )}
        </td>
      ))}
    </tr>
  );
}

function SensorSummary({
  sensor,
  stations,
}: {
  readonly sensor: JobSensor;
  readonly stations: readonly StationFinding[];
}): ReactNode {
  const [first] = stations;
  return (
    <div className="summary-sensor" data-sensor={sensor.sensor}>
      <h2>{sensor.name}</h2>
      <p>
        {sensor.disposition === null ? say('summary.undecided') : say(`disposition.${sensor.disposition}`)}
      </p>
      {first === undefined ? null : (
        <table>
          <thead>
            <tr>
              <th scope="col">{say('summary.station')}</th>
              {first.coordinates.map((each) => (
                <th key={each.coordinate} scope="col">
                  {say(`card.${each.coordinate}`)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {stations.map((station) => (
              <StationRow key={station.station} sensor={sensor} station={station} />
            ))}
          </tbody>
        </table>
      )}
    </div>
  );
}

export function ProofSummary({
  held,
  answers,
}: {
  readonly held: HeldJob;
  readonly answers: Answers;
}): ReactNode {
  return (
    <section className="sheet" data-testid="summary">
      <h2 className="overline">{say('summary.title')}</h2>
      {held.job.sensors.map((sensor) => (
        <SensorSummary
          key={sensor.sensor}
          sensor={sensor}
          stations={answers[sensor.sensor]?.stations ?? []}
        />
      ))}
    </section>
  );
}
