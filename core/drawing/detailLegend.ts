/** The key under the detail: a sample of each line or surface with its name, as many as the row has room for. */
import { formatFixed } from '../units.ts';
import { say } from '../words/index.ts';
import type { DetailWriting } from './detailLabels.ts';
import type { DetailModel } from './detailModel.ts';
import { line, sign } from './pieces.ts';
import type { SceneItem, ScenePoint } from './scene.ts';
import type { SheetPoint, SheetTransform } from './sceneView.ts';
import { textWidthPt } from './textSize.ts';

/** Widths in text heights: of a sample, between a sample and its name, between two entries. */
const SAMPLE_EM = 1.6;
const NAME_GAP_EM = 0.35;
const ENTRY_GAP_EM = 0.9;

/** One entry of the key: `sample` draws about a middle point of the sheet, `half` is half its width in points. */
interface LegendEntry {
  readonly text: string;
  readonly sample: (
    middle: SheetPoint,
    half: number,
    world: (at: SheetPoint) => ScenePoint,
  ) => readonly SceneItem[];
}

const ends = (
  middle: SheetPoint,
  half: number,
  world: (at: SheetPoint) => ScenePoint,
): readonly [ScenePoint, ScenePoint] => [
  world({ xPt: middle.xPt - half, yPt: middle.yPt }),
  world({ xPt: middle.xPt + half, yPt: middle.yPt }),
];

function foundEntry(text: string): LegendEntry {
  return {
    text,
    sample: (middle, half, world) => {
      const [a, b] = ends(middle, half, world);
      return [line([a, b], { role: 'accent', pen: 'thick' }), sign(a, 'barEnd', half * 0.55, 'accent')];
    },
  };
}

const requiredEntry = (): LegendEntry => ({
  text: say('drawing.required'),
  sample: (middle, half, world) => {
    const [a, b] = ends(middle, half, world);
    return [
      line([a, b], { role: 'ink', pen: 'normal', dash: 'dashed' }),
      sign(a, 'ring', half * 0.55, 'ink'),
    ];
  },
});

function ellipseEntry(text: string, ptPerMm: number): LegendEntry {
  return {
    text,
    sample: (middle, half, world) => [
      {
        kind: 'ellipse',
        centre: world(middle),
        semiMajorMm: (half * 0.8) / ptPerMm,
        semiMinorMm: (half * 0.45) / ptPerMm,
        // The sample lies level on the sheet, whichever way the world's axes point on it.
        turnRad: levelRad(middle, world),
        fill: { role: 'accent', tone: 'pale' },
        stroke: { role: 'accent', pen: 'thin' },
      },
    ],
  };
}

/** The world's angle of a line that lies level on the sheet. */
function levelRad(middle: SheetPoint, world: (at: SheetPoint) => ScenePoint): number {
  const a = world(middle);
  const b = world({ xPt: middle.xPt + 1, yPt: middle.yPt });
  return Math.atan2(b.yMm - a.yMm, b.xMm - a.xMm);
}

const boxEntry = (): LegendEntry => ({
  text: say('drawing.detail.box'),
  sample: (middle, half, world) => {
    const x = half * 0.5;
    const corners = [
      [-x, -x],
      [x, -x],
      [x, x],
      [-x, x],
    ] as const;
    return [
      {
        kind: 'polyline',
        closed: true,
        points: corners.map(([dx, dy]) => world({ xPt: middle.xPt + dx, yPt: middle.yPt + dy })),
        fill: { role: 'pencil', tone: 'pale' },
        stroke: { role: 'ink', pen: 'normal' },
      },
    ];
  },
});

function entriesOf(
  detail: DetailModel,
  foundText: string | undefined,
  writing: DetailWriting,
  ptPerMm: number,
): readonly LegendEntry[] {
  const factor = detail.ellipseFactor;
  const ellipseText =
    factor === 1
      ? say('drawing.detail.ellipse')
      : say('drawing.detail.ellipseFactor', {
          factor: formatFixed(factor, Number.isInteger(factor) ? 0 : 1, writing.decimalSign),
        });
  return [
    ...(foundText === undefined ? [] : [foundEntry(foundText)]),
    requiredEntry(),
    ...(detail.ellipse === undefined ? [] : [ellipseEntry(ellipseText, ptPerMm)]),
    ...(detail.ahead === undefined && detail.left === undefined ? [] : [boxEntry()]),
  ];
}

/** The key as a row centred at `middle` on the sheet; entries that would not fit in `roomPt` are left out. */
export function detailLegend(
  detail: DetailModel,
  foundText: string | undefined,
  middle: SheetPoint,
  roomPt: number,
  writing: DetailWriting,
  transform: SheetTransform,
): readonly SceneItem[] {
  const em = writing.textPt;
  const width = (entry: LegendEntry): number =>
    (SAMPLE_EM + NAME_GAP_EM) * em + textWidthPt(entry.text, em, false);
  const total = (list: readonly LegendEntry[]): number =>
    list.reduce((sum, entry) => sum + width(entry), 0) + (list.length - 1) * ENTRY_GAP_EM * em;
  const all = entriesOf(detail, foundText, writing, transform.ptPerMm);
  const count = all.findIndex((_, index) => total(all.slice(0, index + 1)) > roomPt);
  const shown = count < 0 ? all : all.slice(0, count);
  const items: SceneItem[] = [];
  let xPt = middle.xPt - total(shown) / 2;
  for (const entry of shown) {
    const half = (SAMPLE_EM * em) / 2;
    items.push(...entry.sample({ xPt: xPt + half, yPt: middle.yPt }, half, transform.toWorld));
    items.push({
      kind: 'text',
      at: transform.toWorld({ xPt: xPt + (SAMPLE_EM + NAME_GAP_EM) * em, yPt: middle.yPt }),
      text: entry.text,
      sizePt: em,
      bold: false,
      align: 'start',
      rise: 'middle',
      role: 'pencil',
      masked: false,
    });
    xPt += width(entry) + ENTRY_GAP_EM * em;
  }
  return items;
}
