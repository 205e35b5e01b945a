/**
 * A tyre's size as on its side wall, and the overall diameter it names: rim diameter plus twice the section
 * height. That is the size's own diameter; a tyre under load is lower at the road (roughly 0.47 of it to the
 * hub), so half of it is no hub height.
 */
import { err, ok, type Result } from '../result.ts';
import { MM_PER_INCH, type Mm, mm } from '../units.ts';

/** A metric tyre size. */
export type TyreSize = {
  readonly widthMm: number;
  /** Section height in per cent of the width. */
  readonly aspectPercent: number;
  readonly rimInch: number;
  /** Radial, diagonal or bias-belted. */
  readonly construction: 'R' | 'D' | 'B';
  /** Load index and speed symbol where they were written. */
  readonly loadIndex: number | undefined;
  readonly speedSymbol: string | undefined;
};

/** Why a text is no metric tyre size of a car. */
export type TyreError = { readonly code: 'vehicle/tyreUnreadable' | 'vehicle/tyreImplausible' };

/** Sizes of tyres that road cars, vans and pick-ups are fitted with (common practice, no source). */
const PLAUSIBLE = { widthMm: [115, 405], aspectPercent: [20, 100], rimInch: [10, 24] } as const;

const SIZE =
  /^(?:P|LT)?\s*(\d{3})\s*\/\s*(\d{2,3})\s*(Z?R|D|B|-)\s*(\d{2})\s*C?(?:\s+\(?(\d{2,3})(?:\/\d{2,3})?\s*([A-HJ-NP-WY])?\)?)?(?:\s+(?:XL|RF|EXTRA LOAD|REINFORCED))?$/;

const within = (value: number, [least, most]: readonly [number, number]): boolean =>
  value >= least && value <= most;

/**
 * Reads a side wall: `205/55 R16 91V`, `P225/60R17`, `245/45ZR18`. Fails with `vehicle/tyreUnreadable` for another
 * form and `vehicle/tyreImplausible` for numbers no car tyre has.
 */
export function parseTyreSize(text: string): Result<TyreSize, TyreError> {
  const match = SIZE.exec(text.trim().toUpperCase().replace(/\s+/g, ' '));
  if (match === null) return err({ code: 'vehicle/tyreUnreadable' });
  const [, width, aspect, build, rim, load, speed] = match;
  const size: TyreSize = {
    widthMm: Number(width),
    aspectPercent: Number(aspect),
    rimInch: Number(rim),
    construction: build === 'B' ? 'B' : build === 'D' || build === '-' ? 'D' : 'R',
    loadIndex: load === undefined ? undefined : Number(load),
    speedSymbol: speed,
  };
  const plausible =
    within(size.widthMm, PLAUSIBLE.widthMm) &&
    within(size.aspectPercent, PLAUSIBLE.aspectPercent) &&
    within(size.rimInch, PLAUSIBLE.rimInch);
  return plausible ? ok(size) : err({ code: 'vehicle/tyreImplausible' });
}

/** Section height: width times aspect ratio. 205/55 gives 112.75 mm. */
export function tyreSectionHeightMm(size: TyreSize): Mm {
  return mm((size.widthMm * size.aspectPercent) / 100);
}

/** Overall diameter by the size: rim plus twice the section height. 205/55R16 gives 631.9 mm. */
export function tyreDiameterMm(size: TyreSize): Mm {
  return mm(size.rimInch * MM_PER_INCH + 2 * tyreSectionHeightMm(size));
}

/** Circumference of the overall diameter: what an unloaded wheel rolls in one turn. */
export function tyreCircumferenceMm(size: TyreSize): Mm {
  return mm(Math.PI * tyreDiameterMm(size));
}

/**
 * Overall diameter in whole mm as UN Regulation No. 30 (6.1.2) and tyre standards print it: the rim's diameter and the section
 * height are each rounded first. 205/55R16 gives 406 + 2 x 113 = 632 (the text of the regulation from memory).
 */
export function tyreDesignDiameterMm(size: TyreSize): Mm {
  const rimMm = Math.round(size.rimInch * MM_PER_INCH);
  return mm(rimMm + 2 * Math.round(tyreSectionHeightMm(size)));
}
