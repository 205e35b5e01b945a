/** The car as the readings find it: wheelbase, tracks, the two lines and the slope under the wheels. */
import type { ReactNode } from 'react';
import type { VehicleFound } from '../../../core/placement/found.ts';
import { say } from '../../../core/words/index.ts';
import { carFoundWords } from '../../text/carFoundWords.ts';

export function CarFound({
  vehicle,
  preview,
  children,
}: {
  readonly vehicle: VehicleFound | undefined;
  readonly preview: boolean;
  /** What is still open, while the car is not found. */
  readonly children?: ReactNode;
}): ReactNode {
  return (
    <section className="sheet" data-testid="car-found">
      <h2 className="overline">{say('datum.found')}</h2>
      {vehicle === undefined ? (
        <>
          <p>{say('datum.notYet')}</p>
          {children}
        </>
      ) : (
        <dl className="facts">
          {carFoundWords(vehicle).map((fact) => (
            <div key={fact.label} className="fact">
              <dt>{fact.label}</dt>
              <dd>
                <span>{fact.value}</span> <span className="fact-note">{fact.note}</span>
              </dd>
            </div>
          ))}
        </dl>
      )}
      {preview && vehicle !== undefined ? <p className="quiet">{say('plan.previewWords')}</p> : null}
    </section>
  );
}
