/** Which kind of station this is, the number to set on a slide, and where the procedure wants the target. */
import type { ReactNode } from 'react';
import type { StationFinding } from '../../../core/placement/finding.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import type { ProcedureStation } from '../../../core/procedure/schema.ts';
import { say } from '../../../core/words/index.ts';
import { lengthText } from '../../text/lengthText.ts';
import { requiredWords } from '../../text/requiredWords.ts';

/** Below this a slide is set to its centre mark, mm. */
const AT_CENTRE_MM = 0.05;

function SlideNumber({ slide }: { readonly slide: NonNullable<StationFinding['slide']> }): ReactNode {
  return (
    <div data-testid="slide-set">
      <h2 className="overline">{say('stations.setSlide')}</h2>
      <p className="slide-line">
        <span className="slide-number">{lengthText(slide.setMm, 1)}</span>
        <span>{say(slide.setMm < AT_CENTRE_MM ? 'stations.atCentre' : `stations.${slide.side}`)}</span>
      </p>
    </div>
  );
}

export function StationPose({
  station,
  requirement,
  slide,
}: {
  readonly station: ProcedureStation;
  readonly requirement: StationRequirement | undefined;
  readonly slide: StationFinding['slide'];
}): ReactNode {
  return (
    <section className="sheet station-pose" data-testid="station-pose" data-kind={station.kind}>
      <p className="strong">{say(`stations.${station.kind}Kind`)}</p>
      {slide === undefined ? null : <SlideNumber slide={slide} />}
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
    </section>
  );
}
