/**
 * Floor heights from a level or a rotating laser and a staff. The instrument makes one level plane; the staff stands
 * on the floor and is read where the plane crosses it, so the floor is lower where the staff reads more. The height
 * of the plane over anything else is unknown and plays no part: only differences count, and the plane is zero here.
 */

/** Floor height in the frame whose zero is the instrument's plane, mm: minus the staff reading. */
export const floorHeightMm = (staffReadingMm: number): number => -staffReadingMm;

/** How much higher the floor is at the first place than at the second, mm: `floorRiseMm(1203, 1210)` gives 7. */
export const floorRiseMm = (staffAtFirstMm: number, staffAtSecondMm: number): number =>
  staffAtSecondMm - staffAtFirstMm;

/** The fall between the highest and the lowest of several places, mm; 0 for one place. */
export function floorFallMm(staffReadingsMm: readonly number[]): number {
  if (staffReadingsMm.length === 0) return 0;
  return Math.max(...staffReadingsMm) - Math.min(...staffReadingsMm);
}
