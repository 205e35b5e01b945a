/**
 * The plane the car stands on: through its four contact patches on the real floor. Three patches fix a plane; the fourth
 * is off it by the rock. The springs share the rock out, so the car's plane is the least-squares one, each patch
 * weighed alike. Which plane is meant by "through the four patches" is then open by up to the spread of the four planes
 * through three of them: an uncertainty of the definition (JCGM 100:2008 D.3.4), kept apart from that of the heights.
 */
import { item } from '../linalg/at.ts';
import { err, ok, type Result } from '../result.ts';
import { rectangular } from '../uncertainty/quantity.ts';
import { type FloorError, heightsAbovePlane } from './floorPlane.ts';
import { type Known, type KnownHeight, type KnownPlane, knownPlane } from './weightedPlane.ts';
import { type AtWheels, atWheels, wheelList } from './wheels.ts';

/** Four contact points, a plane, and what does not fit it. */
export interface ContactPlane {
  readonly plane: KnownPlane;
  /**
   * Height of the front left patch over the plane through the other three, mm: positive, the diagonal front left to rear
   * right stands high and the car rocks on it; negative, the other diagonal does. The tilt of the level plane the
   * heights were read from has no part in it.
   */
  readonly rock: Known;
  /** Each patch above the least-squares plane, mm: a quarter of the rock up or down for a rectangle of wheels. */
  readonly aboveMm: AtWheels<number>;
  /** Largest difference of the slope in x, and in y, between the plane and one through three patches; pure numbers. */
  readonly slopeSpreadX: number;
  readonly slopeSpreadY: number;
  /** Those limits as u (rectangular): what the rock leaves open of the slopes. */
  readonly uDefinitionX: number;
  readonly uDefinitionY: number;
}

/** No plane, or four wheels that do not stand at four corners. */
export type ContactError = FloorError | { readonly code: 'bay/wheelsNotApart' };

/** A corner carrying less than this share of the largest weight is no corner: three of the wheels lie in one line. */
const LEAST_CORNER = 1e-3;

/** The contact plane of four heights read at the wheels, in any frame with Z up by gravity, mm. */
export function contactPlane(contacts: AtWheels<KnownHeight>, uTilt = 0): Result<ContactPlane, ContactError> {
  const points = wheelList(contacts);
  const fit = knownPlane(points, [1, 1, 1, 1], uTilt);
  if (!fit.ok) return fit;
  const weights = affineWeights(points);
  if (weights === undefined) return err({ code: 'bay/wheelsNotApart' });
  const first = item(weights, 0);
  const rockMm = weights.reduce((sum, w, i) => sum + (w / first) * (points[i]?.zMm ?? 0), 0);
  const uRock = Math.sqrt(
    weights.reduce(
      (sum, w, i) => sum + (w / first) * (points[i]?.uMm ?? 0) * ((w / first) * (points[i]?.uMm ?? 0)),
      0,
    ),
  );
  const above = heightsAbovePlane(
    fit.value,
    points.map((p) => [p.xMm, p.yMm, p.zMm]),
  );
  const spread = threeWheelSpread(points, fit.value);
  return ok({
    plane: fit.value,
    rock: { value: rockMm, u: uRock },
    aboveMm: atWheels((_, i) => item(above, i)),
    slopeSpreadX: spread.x,
    slopeSpreadY: spread.y,
    uDefinitionX: rectangular(spread.x),
    uDefinitionY: rectangular(spread.y),
  });
}

/**
 * The one set of numbers (up to scale) with sum w = 0, sum w x = 0, sum w y = 0: they take any plane out of four heights
 * and leave the rock. Each is the signed area of the triangle of the other three; (1, -1, -1, 1) for a rectangle.
 */
function affineWeights(points: readonly KnownHeight[]): readonly number[] | undefined {
  const area = (a: number, b: number, c: number): number => {
    const [p, q, r] = [points[a], points[b], points[c]];
    if (p === undefined || q === undefined || r === undefined) return 0;
    return (q.xMm - p.xMm) * (r.yMm - p.yMm) - (q.yMm - p.yMm) * (r.xMm - p.xMm);
  };
  const weights = [area(1, 2, 3), -area(0, 2, 3), area(0, 1, 3), -area(0, 1, 2)];
  const largest = Math.max(...weights.map(Math.abs));
  return weights.every((w) => Math.abs(w) > LEAST_CORNER * largest) ? weights : undefined;
}

/** How far the slopes of the four planes through three wheels lie from the least-squares plane's. */
function threeWheelSpread(
  points: readonly KnownHeight[],
  plane: KnownPlane,
): { readonly x: number; readonly y: number } {
  let [x, y] = [0, 0];
  points.forEach((_, left) => {
    const three = points.filter((__, i) => i !== left);
    const fit = knownPlane(three, [1, 1, 1]);
    if (!fit.ok) return;
    x = Math.max(x, Math.abs(fit.value.slopeX - plane.slopeX));
    y = Math.max(y, Math.abs(fit.value.slopeY - plane.slopeY));
  });
  return { x, y };
}
