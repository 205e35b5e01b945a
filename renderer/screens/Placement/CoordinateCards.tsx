/** The six coordinates of a station: the three that the fixture is moved by as cards, then height and tilts as rows. */
import type { ReactNode } from 'react';
import type { Coordinate } from '../../../core/frames.ts';
import type { Job } from '../../../core/job/job.ts';
import type { StationFinding, StationRequirement } from '../../../core/placement/types.ts';
import { coordinateWords } from '../../text/coordinateWords.ts';
import { CoordinateCard } from './CoordinateCard.tsx';

const LARGE: readonly Coordinate[] = ['ahead', 'left', 'yaw'];
const SMALL: readonly Coordinate[] = ['up', 'pitch', 'roll'];

interface CardsProps {
  readonly station: StationFinding;
  readonly requirement: StationRequirement | undefined;
  readonly rule: Job['decisionRule'];
  /** Stands between cards and rows: the moves. */
  readonly children?: ReactNode;
}

export function CoordinateCards({ station, requirement, rule, children }: CardsProps): ReactNode {
  const place = requirement?.place ?? 'ahead';
  const card = (coordinate: Coordinate, compact: boolean): ReactNode => {
    const finding = station.coordinates.find((each) => each.coordinate === coordinate);
    if (finding === undefined) return null;
    const words = coordinateWords(finding, station, place, rule);
    return <CoordinateCard key={coordinate} words={words} coordinate={coordinate} compact={compact} />;
  };
  return (
    <div className="cards" data-testid="cards" data-basis={station.basis}>
      {LARGE.map((coordinate) => card(coordinate, false))}
      {children}
      <div className="card-rows">{SMALL.map((coordinate) => card(coordinate, true))}</div>
    </div>
  );
}
