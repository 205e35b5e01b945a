/**
 * The names under which a job records the readings of floor mats, and the way to what the mats' network takes. A reading's
 * station is the mat: `mat.wheel.FL.A` a tape from the car's left front mark to point A, `mat.next.A.C` from its point A to
 * point C of the mat after it in the procedure, `floor.mat.A` the staff on point A.
 */
import type { Mat, MatPlace, MatTie } from '../placement/bodies/mats.ts';
import type { ReadingSlot, Wheel } from '../placement/placementReading.ts';

const WHEEL = /^mat\.wheel\.(FL|FR|RL|RR)\.([A-Za-z0-9]+)$/;
const NEXT = /^mat\.next\.([A-Za-z0-9]+)\.([A-Za-z0-9]+)$/;
const HEIGHT = /^floor\.mat\.([A-Za-z0-9]+)$/;

const isWheel = (text: string | undefined): text is Wheel =>
  text === 'FL' || text === 'FR' || text === 'RL' || text === 'RR';

/** The tape a recorded reading is, undefined for another reading or one to a mat that is not in the procedure. */
export function tieOfSlot(
  mats: readonly Mat[],
  slot: Pick<ReadingSlot, 'id' | 'station'>,
): MatTie | undefined {
  const at = mats.findIndex((mat) => mat.id === slot.station);
  const mat = mats[at];
  if (mat === undefined) return undefined;
  const [, wheel, point] = WHEEL.exec(slot.id) ?? [];
  if (isWheel(wheel) && point !== undefined) return { from: { wheel }, to: { mat: mat.id, point } };
  const [, own, other] = NEXT.exec(slot.id) ?? [];
  const next = mats[at + 1];
  if (own === undefined || other === undefined || next === undefined) return undefined;
  return { from: { mat: mat.id, point: own }, to: { mat: next.id, point: other } };
}

/** The slot a tape of the mats' recipe is recorded under. */
export function slotOfTie({ from, to }: MatTie): ReadingSlot {
  const wheel = 'wheel' in from ? from.wheel : undefined;
  const ends = [from, to].flatMap((place: MatPlace) => ('mat' in place ? [place] : []));
  const [first, second] = ends;
  const id =
    wheel === undefined ? `mat.next.${first?.point}.${second?.point}` : `mat.wheel.${wheel}.${first?.point}`;
  return { id, purpose: 'proof', ...(first === undefined ? {} : { station: first.mat }) };
}

/** The point a recorded staff reading stood on, undefined for another reading. */
export function pointOfSlot(id: string): string | undefined {
  return HEIGHT.exec(id)?.[1];
}

/** The slot a staff height is recorded under. */
export function slotOfHeight(mat: string, point: string): ReadingSlot {
  return { id: `floor.mat.${point}`, purpose: 'proof', station: mat };
}

/** The catalogue key of a mat reading's name; undefined for the others, which have one each. */
export function matReadingKey(id: string): 'reading.mat.tie' | 'reading.mat.height' | undefined {
  if (HEIGHT.test(id)) return 'reading.mat.height';
  return WHEEL.test(id) || NEXT.test(id) ? 'reading.mat.tie' : undefined;
}
