/** The six coordinates of a station: the three that the fixture is moved by as cards, then height, tilts and a circle as rows. */
import type { ReactNode } from 'react';
import type { Coordinate } from '../../../core/frames.ts';
import type { Job } from '../../../core/job/job.ts';
import type { StationFinding } from '../../../core/placement/finding.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import { coordinateWords, radialWords } from '../../text/coordinateWords.ts';
import { CoordinateCard } from './CoordinateCard.tsx';

const LARGE: readonly Coordinate[] = ['ahead', 'left', 'yaw'];
const SMALL: readonly Coordinate[] = ['up', 'pitch', 'roll'];

interface CardsProps {
  /** All of them as rows: while the fixture is moved, the moves need the room. */
  readonly rows?: boolean;
  readonly station: StationFinding;
  readonly requirement: StationRequirement | undefined;
  readonly rule: Job['decisionRule'];
}

export function CoordinateCards({ station, requirement, rule, rows = false }: CardsProps): ReactNode {
  const place = requirement?.place ?? 'ahead';
  const card = (coordinate: Coordinate, compact: boolean): ReactNode => {
    const finding = station.coordinates.find((each) => each.coordinate === coordinate);
    if (finding === undefined) return null;
    const words = coordinateWords(finding, station, place, rule);
    return <CoordinateCard key={coordinate} words={words} coordinate={coordinate} compact={compact} />;
  };
  const radial = station.radial === undefined ? undefined : radialWords(station.radial, rule);
  return (
    <div className={rows ? 'cards cards-rows' : 'cards'} data-testid="cards" data-basis={station.basis}>
      {rows ? null : LARGE.map((coordinate) => card(coordinate, false))}
      <div className="card-rows">
        {(rows ? [...LARGE, ...SMALL] : SMALL).map((coordinate) => card(coordinate, true))}
        {radial === undefined ? null : <CoordinateCard words={radial} coordinate="radial" compact />}
      </div>
    </div>
  );
}
