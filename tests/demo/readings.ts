/**
 * The made-up layout read by a careful technician with the demo shop's instruments: every mark, line and reading errs
 * by a seeded amount of the size that careful work has (common practice, no source), then is written down to the step
 * of its instrument.
 */
import {
  armFoot,
  barEnd,
  type Deviation,
  FACE_HEIGHT,
  face,
  floorZ,
  hub,
  type Stand,
  slid,
  standAt,
  tilts,
  WHEELS,
  type Wheel,
} from './layout.ts';
import { normalFrom } from './seeded.ts';
import { leftOfLine, minus, plus, size, unit, type V3 } from './vectors.ts';

/** Standard deviations of careful work, mm and degrees. */
const SIGMA = {
  hubCentre: 0.5,
  plumb: 0.8,
  mark: 0.4,
  tapeSet: 0.4,
  tapeRepeat: 0.4,
  linePerMetre: 0.2,
  staff: 0.5,
  hubHeight: 1,
  heightSet: 0.7,
  facePlumb: 1,
  inclinometer: 0.05,
  slide: 0.3,
  slideTilt: 0.03,
} as const;

/** Scale error of this tape: inside its class, the same in all its readings. */
const TAPE_SCALE = 0.00008;
/** Height of the laser's plane in the bay frame. */
const LASER_PLANE = 1243;

/** One reading as it is typed. */
export type Typed = { readonly id: string; readonly text: string; readonly direction: string | null };

/** A number to a step, with a decimal comma and no more decimals than the step has. */
export function written(value: number, step: number): string {
  const decimals = step >= 1 ? 0 : step >= 0.1 ? 1 : 2;
  const text = (Math.round(value / step) * step).toFixed(decimals);
  return text.replace('.', ',');
}

/** The marks on the floor, with the errors they were made with; they stay while the car stands. */
type CarMarks = {
  readonly wheel: Readonly<Record<Wheel, V3>>;
  readonly aheadL: V3;
  readonly aheadR: V3;
  readonly behindL: V3;
  readonly behindR: V3;
  readonly face: V3;
};

const onFloor = (x: number, y: number): V3 => [x, y, floorZ(x, y)];

/** A technician's day: one sequence of errors from one seed. */
export class Technician {
  private readonly err: (sigma: number) => number;
  private readonly marks: CarMarks;

  constructor(seed: number) {
    this.err = normalFrom(seed);
    this.marks = this.markCar();
  }

  private near(p: V3, ...sigmas: readonly number[]): V3 {
    const sigma = Math.sqrt(sigmas.reduce((sum, each) => sum + each * each, 0));
    return onFloor(p[0] + this.err(sigma), p[1] + this.err(sigma));
  }

  /** A point on the line from `from` through `through`, about a metre beyond it, set by string. */
  private extended(from: V3, through: V3, beyond: number): V3 {
    const along = unit([through[0] - from[0], through[1] - from[1], 0]);
    const across: V3 = [-along[1], along[0], 0];
    const aside = this.err(SIGMA.mark) + this.err((SIGMA.linePerMetre * beyond) / 1000);
    const [x, y] = plus(plus(through, along, beyond), across, aside);
    return onFloor(x, y);
  }

  private markCar(): CarMarks {
    const drop = (wheel: Wheel): V3 => this.near(armFoot(wheel), SIGMA.hubCentre, SIGMA.plumb, SIGMA.mark);
    const wheel = { FL: drop('FL'), RL: drop('RL'), RR: drop('RR'), FR: drop('FR') };
    return {
      wheel,
      aheadL: this.extended(wheel.RL, wheel.FL, 1000),
      aheadR: this.extended(wheel.RR, wheel.FR, 1000),
      behindL: this.extended(wheel.FL, wheel.RL, 1000),
      behindR: this.extended(wheel.FR, wheel.RR, 1000),
      face: this.near(face, SIGMA.facePlumb),
    };
  }

  /** Holding the tape to the same two marks errs the same way each time; what is left varies with each reading. */
  private tape(id: string, from: V3, to: V3, set = this.err(SIGMA.tapeSet)): Typed {
    const length = size(minus(to, from)) * (1 + TAPE_SCALE);
    return { id, text: written(length + set + this.err(SIGMA.tapeRepeat), 0.5), direction: null };
  }

  private staff(id: string, at: V3): Typed {
    return { id, text: written(LASER_PLANE - at[2] + this.err(SIGMA.staff), 0.5), direction: null };
  }

  /** The staff at the four wheels and where the fixture's bar ends will stand. */
  floor(first: Deviation): readonly Typed[] {
    const { wheel } = this.marks;
    const stand = standAt(first);
    const [left, right] = [barEnd(stand, 'left'), barEnd(stand, 'right')];
    return [
      ...WHEELS.map((each) => this.staff(`floor.${each}`, wheel[each])),
      this.staff('floor.fixtureLeft', onFloor(left[0], left[1])),
      this.staff('floor.fixtureRight', onFloor(right[0], right[1])),
    ];
  }

  /** One lap round the car. */
  datum(): readonly Typed[] {
    const { wheel, aheadL, aheadR, behindL, behindR } = this.marks;
    const drop = (at: Wheel): Typed => {
      const height = hub(at)[2] - wheel[at][2];
      return { id: `drop.${at}`, text: written(height + this.err(SIGMA.hubHeight), 1), direction: null };
    };
    const beyond = -leftOfLine(this.marks.face, aheadL, aheadR);
    const face: Typed = {
      id: 'face',
      text: written(beyond + this.err(SIGMA.tapeSet) + this.err(SIGMA.tapeRepeat), 0.5),
      direction: null,
    };
    return [
      drop('FL'),
      this.tape('ahead.L', wheel.FL, aheadL),
      this.tape('base.L', wheel.RL, wheel.FL),
      drop('RL'),
      this.tape('behind.L', wheel.RL, behindL),
      this.tape('width.behind', behindL, behindR),
      this.tape('diagonal.RL', behindR, aheadL),
      this.tape('diagonal.LR', behindL, aheadR),
      this.tape('behind.R', wheel.RR, behindR),
      drop('RR'),
      this.tape('base.R', wheel.RR, wheel.FR),
      drop('FR'),
      this.tape('ahead.R', wheel.FR, aheadR),
      this.tape('width.ahead', aheadL, aheadR),
      face,
    ];
  }

  /** The height at which the body face was plumbed. */
  faceHeight(): string {
    return written(FACE_HEIGHT + this.err(2), 1);
  }

  /** The fixture as it stands: four distances to the dropped bar ends, the height, the lean and the tilt. */
  placement(deviation: Deviation): { readonly readings: readonly Typed[]; readonly control: () => Typed } {
    const stand = standAt(deviation);
    const left = this.near(barEnd(stand, 'left'), SIGMA.plumb, SIGMA.mark);
    const right = this.near(barEnd(stand, 'right'), SIGMA.plumb, SIGMA.mark);
    const { aheadL, aheadR } = this.marks;
    const { towardCar, carLeftLow } = tilts(stand);
    const set = this.err(SIGMA.tapeSet);
    return {
      readings: [
        this.tape('bar.sameL', aheadL, left, set),
        this.tape('bar.diagLR', aheadL, right),
        this.tape('bar.sameR', aheadR, right),
        this.tape('bar.diagRL', aheadR, left),
        this.height(stand.target),
        this.tilt('fixture.pitch', towardCar, ['towardCar', 'awayFromCar']),
        this.tilt('fixture.roll', carLeftLow, ['carLeftLow', 'carRightLow']),
      ],
      control: () => this.tape('bar.sameL', aheadL, left, set),
    };
  }

  private height(target: V3): Typed {
    const over = target[2] - floorZ(target[0], target[1]);
    return { id: 'target.height', text: written(over + this.err(SIGMA.heightSet), 0.5), direction: null };
  }

  private tilt(id: string, value: number, [positive, negative]: readonly [string, string]): Typed {
    const read = value + this.err(SIGMA.inclinometer);
    return { id, text: written(Math.abs(read), 0.01), direction: read < 0 ? negative : positive };
  }

  /** A slide: set to a whole millimetre, read on the rule; the off-centre weight tilts the bar a little. */
  slide(deviation: Deviation, setTowardCarLeft: number): readonly Typed[] {
    const stand: Stand = standAt({ ...deviation, roll: deviation.roll + this.err(SIGMA.slideTilt) });
    const truly = Math.abs(setTowardCarLeft) + this.err(SIGMA.slide);
    return [
      { id: 'slide', text: written(Math.abs(setTowardCarLeft), 0.5), direction: null },
      this.height(slid(stand, Math.sign(setTowardCarLeft) * truly)),
    ];
  }
}
