/**
 * What the wheels stand on. The contact patches are where the tyres stand: on the floor, on turn plates, on pads of stands,
 * on a lift's runways. Whatever it is, its height is read at each wheel with the car's weight on it (plates sink, runways
 * bend, pads tip), and the four need not be alike. A procedure may forbid a support; then nothing is judged.
 */
import { err, ok, type Result } from '../result.ts';
import type { KnownHeight } from './weightedPlane.ts';
import { type AtWheels, atWheels, WHEEL_NAMES, type WheelName, wheelList } from './wheels.ts';

/** Kinds of support. `stands`: under the wheels, on pads; never a car hanging with its suspension free. */
export const SUPPORT_KINDS = ['floor', 'turnPlates', 'stands', 'runways', 'lift'] as const;
/** A kind of support. */
export type SupportKind = (typeof SUPPORT_KINDS)[number];

/** A contact height as it was read. */
export interface ContactReading extends KnownHeight {
  readonly support: SupportKind;
  /** True when the car's weight stood on it while it was read. */
  readonly underLoad: boolean;
}

/** Word key of the caution that comes before everything else where a car stands off the floor. */
export type SupportCaution =
  | 'bay.caution.turnPlates'
  | 'bay.caution.stands'
  | 'bay.caution.runways'
  | 'bay.caution.lift';

/** Why supports carry no contact plane; the caution, where there is one, is said first. */
export type SupportError =
  | {
      readonly code: 'bay/supportForbidden';
      readonly caution: SupportCaution | undefined;
      readonly support: SupportKind;
      readonly wheels: readonly WheelName[];
      readonly permitted: readonly SupportKind[];
    }
  | {
      readonly code: 'bay/contactNotUnderLoad';
      readonly caution: SupportCaution | undefined;
      readonly wheels: readonly WheelName[];
    };

/** The caution of a support; the floor needs none. */
export function supportCaution(support: SupportKind): SupportCaution | undefined {
  return support === 'floor' ? undefined : `bay.caution.${support}`;
}

/** Order in which cautions matter: the car that can fall farthest comes first. */
const GRAVEST: readonly SupportKind[] = ['lift', 'stands', 'runways', 'turnPlates', 'floor'];

function gravest(kinds: readonly SupportKind[]): SupportKind {
  return GRAVEST.find((kind) => kinds.includes(kind)) ?? 'floor';
}

/** Contact heights fit for a plane, and the cautions that hold for them, gravest first. */
export interface SupportedContacts {
  readonly contacts: AtWheels<KnownHeight>;
  readonly cautions: readonly SupportCaution[];
}

/**
 * The four contacts, if the procedure permits what each wheel stands on and each was read under load. A floor's height
 * is the same with and without the car; everything else must have been read loaded.
 */
export function supportedContacts(
  readings: AtWheels<ContactReading>,
  permitted: readonly SupportKind[],
): Result<SupportedContacts, SupportError> {
  const kinds = wheelList(readings).map((reading) => reading.support);
  const wheelsOn = (unfit: (reading: ContactReading) => boolean): readonly WheelName[] =>
    WHEEL_NAMES.filter((wheel) => unfit(readings[wheel]));
  const forbidden = kinds.filter((kind) => !permitted.includes(kind));
  if (forbidden.length > 0) {
    const support = gravest(forbidden);
    const wheels = wheelsOn((reading) => reading.support === support);
    return err({
      code: 'bay/supportForbidden',
      caution: supportCaution(support),
      support,
      wheels,
      permitted,
    });
  }
  const unloaded = wheelsOn((reading) => reading.support !== 'floor' && !reading.underLoad);
  if (unloaded.length > 0) {
    const caution = supportCaution(gravest(unloaded.map((wheel) => readings[wheel].support)));
    return err({ code: 'bay/contactNotUnderLoad', caution, wheels: unloaded });
  }
  const cautions = GRAVEST.filter((kind) => kinds.includes(kind)).flatMap(
    (kind) => supportCaution(kind) ?? [],
  );
  const contacts = atWheels((wheel): KnownHeight => {
    const { xMm, yMm, zMm, uMm } = readings[wheel];
    return { xMm, yMm, zMm, uMm };
  });
  return ok({ contacts, cautions });
}
