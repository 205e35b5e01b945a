/** What is measured with and what is placed: instruments, side arms, and the fixture with its own measured lengths. */
import type { FixtureKinematics } from './kinematics/fixtureKinematics.ts';

/** What kind of instrument a reading expects. */
export type InstrumentKind = 'tape' | 'plumbBob' | 'level' | 'inclinometer' | 'rule' | 'alignmentReport';

/** A length and its standard uncertainty, mm. */
export interface LengthWithU {
  readonly mm: number;
  readonly uMm: number;
}

/** One instrument as the solver needs it. */
export interface PlacementInstrument {
  readonly id: string;
  readonly kind: InstrumentKind;
  /** EU tape class (Directive 2014/32/EU, Annex X), for tapes without a certificate value. */
  readonly accuracyClass?: 'I' | 'II' | 'III';
  /** Smallest step it shows, mm or radians. */
  readonly resolution: number;
  /** True when the tape starts at its hook, whose own play then counts. */
  readonly hook?: boolean;
}

/** How carefully the work is done: the column of default uncertainties (`defaults.ts`). */
export type WorkClass = 'typical' | 'careful' | 'best';

/** The movable stand with its target, in the fixture frame (origin the bar's centre mark, X out of the face). */
export interface PlacementFixture {
  /** Between the two end marks of the bar, which lie at equal distances from the centre mark. */
  readonly barLength: LengthWithU;
  /** The target's face centre: out of the face, across (to the left of one who looks out of it), up. */
  readonly face: {
    readonly outMm: number;
    readonly acrossMm: number;
    readonly upMm: number;
    readonly uMm: number;
  };
  /** How it moves, where that is known. */
  readonly kinematics?: FixtureKinematics;
}

/** What a shop's own studies say of one reading of a tape: its standard deviation, and the degrees of freedom behind it. */
export interface StudiedRepeatability {
  readonly mm: number;
  readonly dof: number;
}

/** Everything measured with. Side arms carry the plumb line past the tyre: hub centre to line. */
export interface PlacementEquipment {
  readonly work: WorkClass;
  readonly fixture: PlacementFixture;
  readonly sideArms: { readonly left: LengthWithU; readonly right: LengthWithU };
  readonly instruments: readonly PlacementInstrument[];
  /** Takes the place of the default repeatability of tapes, whatever the way of working; absent: the default stands. */
  readonly tapeRepeat?: StudiedRepeatability;
}
