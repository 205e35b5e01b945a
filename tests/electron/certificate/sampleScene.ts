/** A small plan view for the certificate's tests: a car, its lines, the fixture found and required. */
import type { Scene } from '../../../core/drawing/scene.ts';

const at = (xMm: number, yMm: number) => ({ xMm, yMm });

export const sampleScene: Scene = {
  title: 'Plan view',
  description: 'The car from above with the fixture ahead of it.',
  view: 'level',
  viewerAt: 'ahead',
  sheet: { widthPt: 499, heightPt: 240 },
  bounds: { minXMm: -1500, minYMm: -1600, maxXMm: 5500, maxYMm: 1600 },
  items: [
    {
      kind: 'polyline',
      closed: true,
      points: [at(-900, -900), at(3600, -900), at(3600, 900), at(-900, 900)],
      stroke: { role: 'ink', pen: 'normal' },
      fill: { role: 'hairline', tone: 'pale' },
    },
    {
      kind: 'polyline',
      closed: false,
      points: [at(-1300, 0), at(5300, 0)],
      stroke: { role: 'pencil', pen: 'thin', dash: 'dashDot' },
    },
    {
      kind: 'polyline',
      closed: false,
      points: [at(5000, -800), at(5004, 800)],
      stroke: { role: 'accent', pen: 'thick' },
    },
    {
      kind: 'text',
      at: at(0, 0),
      text: 'rear axle',
      sizePt: 8,
      bold: false,
      align: 'start',
      rise: 'above',
      role: 'pencil',
      masked: true,
    },
  ],
};
