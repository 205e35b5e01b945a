/** The grid of a detail circle: chords of squares through its centre. */
import { line, scenePoint } from './pieces.ts';
import type { SceneItem, ScenePoint, Stroke } from './scene.ts';

/** Chords every `stepMm` of the scene's world, both ways. */
export function gridChords(centre: ScenePoint, radiusMm: number, stepMm: number): readonly SceneItem[] {
  const hair: Stroke = { role: 'hairline', pen: 'thin' };
  const count = Math.floor(radiusMm / stepMm);
  return Array.from({ length: 2 * count + 1 }, (_, index) => (index - count) * stepMm).flatMap((off) => {
    const half = Math.sqrt(Math.max(0, radiusMm * radiusMm - off * off));
    if (half === 0) return [];
    const { xMm, yMm } = centre;
    return [
      line([scenePoint(xMm + off, yMm - half), scenePoint(xMm + off, yMm + half)], hair),
      line([scenePoint(xMm - half, yMm + off), scenePoint(xMm + half, yMm + off)], hair),
    ];
  });
}
