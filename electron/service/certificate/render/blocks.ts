/** Draws any block of the document: one drawer for each member of the closed union. */
import type { DocumentBlock, DocumentSection } from '../../../../core/certificate/document.ts';
import { assertNever } from '../../../../core/result.ts';
import { drawFacts } from './facts.ts';
import { drawPictures, type PictureBytes, picturesStart } from './pictures.ts';
import { drawList, drawNotice, drawText } from './prose.ts';
import { drawScene, type SceneDrawer, sceneStart } from './sceneBlock.ts';
import type { Sheet } from './sheet.ts';
import { drawTable, tableStart } from './table.ts';
import { colours, rule, space, styles } from './tokens.ts';
import { drawVerdicts, verdictsStart } from './verdicts.ts';

/** What blocks are drawn with: scenes in millimetres, photos by their digest. */
export interface Drawers {
  readonly drawScene: SceneDrawer;
  readonly pictureBytes: PictureBytes;
}

export function drawBlock(sheet: Sheet, block: DocumentBlock, drawers: Drawers): void {
  switch (block.block) {
    case 'facts':
      drawFacts(sheet, block);
      break;
    case 'table':
      drawTable(sheet, block);
      break;
    case 'verdicts':
      drawVerdicts(sheet, block);
      break;
    case 'scene':
      drawScene(sheet, block, drawers.drawScene);
      break;
    case 'pictures':
      drawPictures(sheet, block, drawers.pictureBytes);
      break;
    case 'text':
      drawText(sheet, block);
      break;
    case 'notice':
      drawNotice(sheet, block);
      break;
    case 'list':
      drawList(sheet, block);
      break;
    default:
      assertNever(block);
  }
}

/** Room under a heading whose first block can begin anywhere. */
const plainStart = 48;

/** Room the block needs to begin, so that no heading stands alone at the foot of a page. */
function startRoom(sheet: Sheet, block: DocumentBlock | undefined): number {
  switch (block?.block) {
    case 'table':
      return tableStart(sheet, block);
    case 'verdicts':
      return verdictsStart(sheet, block);
    case 'pictures':
      return picturesStart(sheet, block);
    case 'scene':
      return sceneStart(sheet, block);
    default:
      return plainStart;
  }
}

export function drawHeading(sheet: Sheet, words: string, roomBelow: number): void {
  const lines = sheet.lines(styles.heading, words, sheet.width);
  const height = lines.length * styles.heading.leading + 3 + space.step;
  if (sheet.y > sheet.page.top) sheet.y += space.step;
  sheet.ensure(height + roomBelow);
  sheet.tag('H2', () => {
    sheet.y += sheet.write(lines, styles.heading, sheet.left, sheet.y, sheet.width);
  });
  sheet.y += 3;
  sheet.rule(sheet.y, rule.firm, colours.ink);
  sheet.y += space.step;
}

export function drawSection(sheet: Sheet, section: DocumentSection, drawers: Drawers): void {
  sheet.group('Sect', () => {
    drawHeading(sheet, section.heading, startRoom(sheet, section.blocks[0]));
    for (const block of section.blocks) drawBlock(sheet, block, drawers);
  });
}
