/** The list of jobs. The plate is a button that covers its whole row. */
import { type ReactNode, useEffect, useState } from 'react';
import { Button as AriaButton } from 'react-aria-components';
import { say } from '../../../core/words/index.ts';
import { useActions } from '../../state/windowContext.tsx';
import type { JobRow } from '../../state/windowState.ts';
import { ageText } from '../../text/ageText.ts';
import { sayKey } from '../../text/sayKey.ts';

/** How often ages are written anew, ms. */
const AGE_EVERY_MS = 30_000;

function useNow(): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const timer = window.setInterval(() => setNow(Date.now()), AGE_EVERY_MS);
    return () => window.clearInterval(timer);
  }, []);
  return now;
}

const HEADS = ['plate', 'car', 'sensors', 'stage', 'waitsFor', 'age'] as const;

export function JobTable({
  rows,
  search,
}: {
  readonly rows: readonly JobRow[];
  readonly search: string;
}): ReactNode {
  const actions = useActions();
  const now = Math.max(useNow(), ...rows.map((row) => row.updatedUtcMs));
  if (rows.length === 0) {
    return (
      <section className="sheet empty" data-testid="no-jobs">
        <h2>{search === '' ? say('home.empty') : say('home.nothingFound', { search })}</h2>
        <p>{search === '' ? say('home.emptyNext') : say('home.nothingFoundNext')}</p>
      </section>
    );
  }
  return (
    <section className="sheet jobs">
      <table>
        <thead>
          <tr>
            {HEADS.map((head) => (
              <th key={head} scope="col">
                {say(`home.${head}`)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.job} data-job={row.job}>
              <td>
                <AriaButton
                  className="job-open"
                  onPress={() => actions.go({ screen: 'job', job: row.job, view: 'intake' })}
                >
                  {row.plate || row.reference}
                </AriaButton>
              </td>
              <td className="job-car">{row.car}</td>
              <td>{row.sensors.join(', ')}</td>
              <td className="job-stage">{row.certificate || sayKey(`stage.${row.stage}.title`)}</td>
              <td>{sayKey(row.waitsFor)}</td>
              <td className="job-age">{ageText(row.updatedUtcMs, now)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
