/** Why there is no answer, or why a part of it is missing. */
import type { Coordinate } from '../frames.ts';

/** A quantity that readings can leave open. */
export type OpenQuantity = 'vehicle' | 'fixture' | 'thrustLine' | 'bodyFace';

/**
 * Why there is no answer, or why a part of it is missing. `readingIds` are slot keys: those that would determine the
 * quantity, or those that cannot all be right.
 */
export type PlacementError =
  | {
      readonly code: 'placement/undetermined';
      readonly quantity: OpenQuantity;
      readonly readingIds: readonly string[];
    }
  | { readonly code: 'placement/impossible'; readonly readingIds: readonly string[] }
  | { readonly code: 'placement/sideContradicted'; readonly readingIds: readonly string[] }
  | { readonly code: 'placement/directionMissing'; readonly readingIds: readonly string[] }
  | { readonly code: 'placement/notConverged'; readonly iterations: number }
  | { readonly code: 'placement/faceAcrossCar' }
  /** The body's readings do not tell a coordinate that the station judges. */
  | { readonly code: 'placement/bodyLeavesOpen'; readonly coordinates: readonly Coordinate[] }
  | { readonly code: 'placement/firstStationSlides' }
  | { readonly code: 'placement/unsolvable'; readonly cause: string };
