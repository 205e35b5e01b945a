/** Which kind of station this is, and where the procedure wants the target, each coordinate from its own datum. */
import type { ReactNode } from 'react';
import type { StationRequirement } from '../../../core/placement/types.ts';
import type { ProcedureStation } from '../../../core/procedure/schema.ts';
import { say } from '../../../core/words/index.ts';
import { requiredWords } from '../../text/requiredWords.ts';
import { Icon } from '../../ui/Icon.tsx';

export function StationPose({
  station,
  requirement,
  cautions,
}: {
  readonly station: ProcedureStation;
  readonly requirement: StationRequirement | undefined;
  /** Of the procedure's own steps. */
  readonly cautions: readonly string[];
}): ReactNode {
  return (
    <section className="sheet station-pose" data-testid="station-pose" data-kind={station.kind}>
      <p className="strong">{say(`stations.${station.kind}Kind`)}</p>
      {station.kind === 'slide' ? null : <p className="quiet">{say('stations.repositionWords')}</p>}
      {requirement === undefined ? null : (
        <div>
          <h2 className="overline">{say('stations.required')}</h2>
          <ul>
            {requiredWords(requirement).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </div>
      )}
      {cautions.length === 0 ? null : (
        <ul className="cautions">
          {cautions.map((caution) => (
            <li key={caution}>
              <Icon name="caution" />
              <span>{caution}</span>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
