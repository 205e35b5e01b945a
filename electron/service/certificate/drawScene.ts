/**
 * A scene on a page: the same paths and texts as in the window, as vectors. Colours are the light palette's; lines keep
 * apart by pen and dash, surfaces by their edges, so that the drawing survives a black-and-white copier. Fonts are the
 * document's own `regular` and `bold`. No marked content is added: the caller tags the figure.
 */
import { PALETTE, paleColour } from '../../../core/drawing/palette.ts';
import type { Fill, Scene } from '../../../core/drawing/scene.ts';
import { sheetTransform } from '../../../core/drawing/sceneView.ts';
import { sceneShapes } from '../../../core/drawing/shapes.ts';
import type { PathCommand, PathShape, TextShape } from '../../../core/drawing/sheetShape.ts';
import { assertNever } from '../../../core/result.ts';

/**
 * The part of pdfkit's document that a drawing needs. `dash` takes a whole pattern, which pdfkit 0.20.2 accepts and its
 * published types leave out.
 */
export interface ScenePaper
  extends Pick<
    PDFKit.PDFDocument,
    | 'save'
    | 'restore'
    | 'translate'
    | 'scale'
    | 'moveTo'
    | 'lineTo'
    | 'bezierCurveTo'
    | 'closePath'
    | 'lineWidth'
    | 'lineJoin'
    | 'lineCap'
    | 'undash'
    | 'fillColor'
    | 'strokeColor'
    | 'fill'
    | 'stroke'
    | 'fillAndStroke'
    | 'font'
    | 'fontSize'
    | 'text'
    | 'widthOfString'
  > {
  dash(pattern: number | readonly number[], options: Readonly<Record<string, unknown>>): unknown;
}

/** Where on the page, points from its upper corner on the left. */
export interface PaperBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

function trace(doc: ScenePaper, command: PathCommand): void {
  switch (command.command) {
    case 'move':
      doc.moveTo(command.to.xPt, command.to.yPt);
      return;
    case 'line':
      doc.lineTo(command.to.xPt, command.to.yPt);
      return;
    case 'cubic': {
      const { control1, control2, to } = command;
      doc.bezierCurveTo(control1.xPt, control1.yPt, control2.xPt, control2.yPt, to.xPt, to.yPt);
      return;
    }
    case 'close':
      doc.closePath();
      return;
    default:
      assertNever(command);
  }
}

const inkOf = (fill: Fill): string =>
  fill.tone === 'pale' ? paleColour(fill.role, 'light') : PALETTE.light[fill.role];

function drawPath(doc: ScenePaper, shape: PathShape): void {
  for (const command of shape.commands) trace(doc, command);
  const { stroke, fill } = shape;
  if (stroke !== undefined) {
    doc.lineWidth(stroke.widthPt).strokeColor(PALETTE.light[stroke.role]);
    if (stroke.dashPt.length === 0) doc.undash();
    else doc.dash(stroke.dashPt, {});
  }
  if (fill !== undefined) doc.fillColor(inkOf(fill));
  if (stroke !== undefined && fill !== undefined) doc.fillAndStroke();
  else if (stroke !== undefined) doc.stroke();
  else doc.fill();
}

function drawText(doc: ScenePaper, shape: TextShape): void {
  doc.font(shape.bold ? 'bold' : 'regular').fontSize(shape.sizePt);
  doc.fillColor(PALETTE.light[shape.role]);
  const width = doc.widthOfString(shape.text);
  const xPt =
    shape.align === 'start' ? shape.xPt : shape.align === 'end' ? shape.xPt - width : shape.xPt - width / 2;
  doc.text(shape.text, xPt, shape.yPt, { lineBreak: false, baseline: 'alphabetic' });
}

/** Draws a scene into a box: as large as it fits, in the middle. A box of the sheet's own size keeps its text size. */
export function drawScene(doc: ScenePaper, scene: Scene, box: PaperBox): void {
  const { widthPt, heightPt } = scene.sheet;
  const scale = Math.min(box.width / widthPt, box.height / heightPt);
  doc.save();
  doc.translate(box.x + (box.width - widthPt * scale) / 2, box.y + (box.height - heightPt * scale) / 2);
  doc.scale(scale).lineJoin('round').lineCap('butt');
  for (const shape of sceneShapes(scene, sheetTransform(scene))) {
    if (shape.kind === 'path') drawPath(doc, shape);
    else drawText(doc, shape);
  }
  doc.undash();
  doc.restore();
}
