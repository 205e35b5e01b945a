/**
 * Does a stated 95 % interval cover the truth 95 times in 100? Random jobs (car, floor, pose, equipment, way of working, recipe
 * options) are measured by simulated people and solved by the whole chain from readings to findings.
 */
import { COORDINATES, type Coordinate } from '../../core/frames.ts';
import type { PlacementEquipment, PlacementInstrument } from '../../core/placement/equipment.ts';
import type { PlacementInput } from '../../core/placement/placementInput.ts';
import type { StationRequirement } from '../../core/placement/requirement.ts';
import { solvePlacement } from '../../core/placement/solvePlacement.ts';
import type { TrueLayout } from '../../core/rehearsal/trueBay.ts';
import { coverageFactor } from '../../core/uncertainty/coverage.ts';
import { CENTRE } from '../core/placement/trueLayout.ts';
import { type Measuring, personIn, readBy } from './bayErrors.ts';
import { type Draws, drawsFrom } from './draws.ts';

const DEG = Math.PI / 180;

/** One job: what is true, what is required, and how it is measured. */
export interface CoverageJob {
  readonly layout: TrueLayout;
  readonly station: StationRequirement;
  readonly measuring: Measuring;
  /** Found minus required as it truly is; mm and radians. */
  readonly truth: Readonly<Record<Coordinate, number>>;
}

const oneOf = <T>(draws: Draws, choices: readonly [T, ...T[]]): T =>
  choices[Math.min(choices.length - 1, Math.floor(draws.between(0, choices.length)))] ?? choices[0];

function randomEquipment(draws: Draws): { equipment: PlacementEquipment; tape?: PlacementInstrument } {
  const work = oneOf(draws, ['typical', 'careful', 'best'] as const);
  const { between } = draws;
  const bare: PlacementEquipment = {
    work,
    fixture: {
      barLength: { mm: between(1500, 2500), uMm: between(0.1, 0.5) },
      face: {
        outMm: between(20, 150),
        acrossMm: between(-60, 60),
        upMm: between(-200, 400),
        uMm: between(0.2, 0.7),
      },
    },
    sideArms: {
      left: { mm: between(230, 320), uMm: between(0.2, 0.5) },
      right: { mm: between(230, 320), uMm: between(0.2, 0.5) },
    },
    instruments: [],
  };
  if (draws.chance(0.5)) return { equipment: bare };
  const tape: PlacementInstrument = {
    id: 'tape-7',
    kind: 'tape',
    accuracyClass: oneOf(draws, ['I', 'II'] as const),
    resolution: oneOf(draws, [0.5, 1] as const),
    hook: draws.chance(0.5),
  };
  return { equipment: { ...bare, instruments: [tape] }, tape };
}

function randomLayout(draws: Draws, equipment: PlacementEquipment, near: 'ahead' | 'behind'): TrueLayout {
  const { between } = draws;
  const wheelbase = between(2300, 3200);
  const [front, rear] = [between(720, 850), between(720, 850)];
  const hub = between(280, 360);
  const carAhead = near === 'ahead';
  return {
    carAt: [between(-3000, 3000), between(-3000, 3000)],
    carHeading: between(-Math.PI, Math.PI),
    floorSlope: [between(-0.008, 0.008), between(-0.008, 0.008)],
    // Axle midpoints on the car's own axis, so that the layout's axes are those of the vehicle frame.
    hubs: {
      FL: [wheelbase, front, hub],
      FR: [wheelbase, -front, hub],
      RL: [0, rear, hub],
      RR: [0, -rear, hub],
    },
    armLeft: equipment.sideArms.left.mm,
    armRight: equipment.sideArms.right.mm,
    beyondAhead: between(800, 1500),
    beyondBehind: between(800, 1500),
    face: [wheelbase + between(600, 750), 0, between(400, 600)],
    toeLeft: between(-0.2, 0.2) * DEG,
    toeRight: between(-0.2, 0.2) * DEG,
    target: {
      ahead: carAhead ? wheelbase + between(1900, 4000) : -between(1900, 4000),
      left: between(-250, 250),
      up: between(500, 1500),
      yaw: (carAhead ? Math.PI : 0) + between(-2, 2) * DEG,
      pitch: between(-1, 1) * DEG,
      roll: between(-1, 1) * DEG,
    },
    fixtureFloor: [between(-20, 20), between(-0.008, 0.008), between(-0.008, 0.008)],
  };
}

/** The job of a seed. */
export function coverageJob(seed: number): { readonly job: CoverageJob; readonly draws: Draws } {
  const draws = drawsFrom(seed);
  const near = draws.chance(0.75) ? 'ahead' : 'behind';
  const { equipment, tape } = randomEquipment(draws);
  const layout = randomLayout(draws, equipment, near);
  const { target } = layout;
  const from = draws.chance(0.3) ? 'thrustLine' : 'centreline';
  const wanted = {
    ahead: target.ahead + draws.between(-20, 20),
    left: target.left + draws.between(-20, 20),
    up: target.up + draws.between(-20, 20),
  };
  const yaw = near === 'ahead' ? Math.PI : 0;
  const station: StationRequirement = {
    ...CENTRE,
    place: near,
    ahead: { ...CENTRE.ahead, value: wanted.ahead },
    left: { ...CENTRE.left, value: wanted.left, from },
    up: { ...CENTRE.up, value: wanted.up },
    yaw: { ...CENTRE.yaw, value: yaw, from },
  };
  // Thrust angle of ISO 8855, positive to the car's left, from toes positive in: (right - left) / 2.
  const line = from === 'thrustLine' ? (layout.toeRight - layout.toeLeft) / 2 : 0;
  const facing = near === 'ahead' ? -1 : 1;
  const measuring: Measuring = {
    equipment,
    drops: oneOf(draws, [1, 2, 3] as const),
    near,
    ...(tape === undefined ? {} : { tape }),
  };
  const job: CoverageJob = {
    layout,
    station,
    measuring,
    truth: {
      ahead: target.ahead - wanted.ahead,
      left: Math.cos(line) * target.left - Math.sin(line) * target.ahead - wanted.left,
      up: target.up - wanted.up,
      yaw: target.yaw - yaw - line,
      // Of a face that looks back at the car, pitch and roll turn the other way about the car's axes.
      pitch: facing * target.pitch,
      roll: facing * target.roll,
    },
  };
  return { job, draws };
}

/** How often each coordinate was covered, and how far off it was on average in units of its u. */
export interface Covered {
  readonly jobs: number;
  readonly covered: Readonly<Record<Coordinate, number>>;
  /** Root mean square of error over u; 1 when u is right. */
  readonly normalisedSpread: Readonly<Record<Coordinate, number>>;
  /** Mean of error over u; 0 when nothing is biased. */
  readonly normalisedMean: Readonly<Record<Coordinate, number>>;
  /** Jobs whose global test failed; about 1 in 20 or fewer should. */
  readonly inconsistent: number;
}

/** The input of a job as its person measures it. */
export function measuredInput({ layout, station, measuring }: CoverageJob, draws: Draws): PlacementInput {
  return {
    readings: readBy(personIn(layout, measuring, draws), layout),
    setUps: { car: 1, fixture: 1 },
    equipment: measuring.equipment,
    stations: [station],
    decisionRule: 'guarded',
  };
}

const perCoordinate = (value: (coordinate: Coordinate) => number): Record<Coordinate, number> => ({
  ahead: value('ahead'),
  left: value('left'),
  up: value('up'),
  yaw: value('yaw'),
  pitch: value('pitch'),
  roll: value('roll'),
});

/** Runs `jobs` jobs of the seeds from `seed` on. A job that has no answer is an error: none of these is at fault. */
export function coverageOf(seed: number, jobs: number, level = 0.95): Covered {
  const counts = perCoordinate(() => 0);
  const sums = perCoordinate(() => 0);
  const squares = perCoordinate(() => 0);
  let inconsistent = 0;
  for (let i = 0; i < jobs; i++) {
    const { job, draws } = coverageJob(seed + i);
    const answer = solvePlacement(measuredInput(job, draws));
    const found = answer.ok ? answer.value.stations[0] : undefined;
    if (!answer.ok || found === undefined) throw new Error(`no answer to the job of seed ${seed + i}`);
    if (answer.value.globalTest?.passed === false) inconsistent += 1;
    for (const { coordinate, deviation, u, dof } of found.coordinates) {
      const off = (deviation - job.truth[coordinate]) / u;
      if (Math.abs(off) <= coverageFactor(dof, level)) counts[coordinate] += 1;
      sums[coordinate] += off;
      squares[coordinate] += off * off;
    }
  }
  return {
    jobs,
    covered: counts,
    normalisedSpread: perCoordinate((c) => Math.sqrt(squares[c] / jobs)),
    normalisedMean: perCoordinate((c) => sums[c] / jobs),
    inconsistent,
  };
}

export { COORDINATES };
