/** A drawing to scale on its own sheet, tagged as a figure with words for who cannot see it. */
import type { SceneBlock } from '../../../../core/certificate/document.ts';
import type { Pdf } from './pdfkit.ts';
import type { Box, Sheet } from './sheet.ts';
import { colours, pointsPerMm, rule, space, styles } from './tokens.ts';

/** Draws a scene into a box, in points from the upper left corner of the page. It adds no marked content. */
export type SceneDrawer = (doc: Pdf, scene: SceneBlock['scene'], box: Box) => void;

/** Room the drawing and its caption take. */
export function sceneStart(sheet: Sheet, block: SceneBlock): number {
  const { height, below } = measure(sheet, block);
  return height + below;
}

function measure(sheet: Sheet, block: SceneBlock) {
  const caption = block.caption === undefined ? [] : sheet.lines(styles.small, block.caption, sheet.width);
  const below = caption.length * styles.small.leading + (caption.length > 0 ? space.half : 0);
  return { caption, below, height: Math.min(block.heightMm * pointsPerMm, sheet.capacity - below) };
}

export function drawScene(sheet: Sheet, block: SceneBlock, drawer: SceneDrawer): void {
  const { caption, below, height } = measure(sheet, block);
  sheet.ensure(height + below);
  const box = { x: sheet.left, y: sheet.y, width: sheet.width, height };
  sheet.tag('Figure', () => drawFramed(sheet, block, drawer, box), {
    alt: block.altText,
    bbox: [box.x, box.y, box.x + box.width, box.y + box.height],
    placement: 'Block',
  });
  sheet.y += height;
  if (caption.length > 0) {
    sheet.y += space.half;
    sheet.tag('P', () => {
      sheet.y += sheet.write(caption, styles.small, sheet.left, sheet.y, sheet.width);
    });
  }
  sheet.y += space.step;
}

function drawFramed(sheet: Sheet, block: SceneBlock, drawer: SceneDrawer, box: Box): void {
  const { doc } = sheet;
  doc.save();
  doc.rect(box.x, box.y, box.width, box.height).clip();
  drawer(doc, block.scene, box);
  doc.restore();
  doc.lineWidth(rule.hair).strokeColor(colours.pencil);
  doc.rect(box.x, box.y, box.width, box.height).stroke();
}
