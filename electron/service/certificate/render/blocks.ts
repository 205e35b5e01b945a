/** Draws any block of the document: one drawer for each member of the closed union. */
import type { DocumentBlock, DocumentSection } from '../../../../core/certificate/document.ts';
import { assertNever } from '../../../../core/result.ts';
import { drawFacts } from './facts.ts';
import { drawList, drawNotice, drawText } from './prose.ts';
import { drawScene, type SceneDrawer } from './sceneBlock.ts';
import type { Sheet } from './sheet.ts';
import { drawTable } from './table.ts';
import { colours, rule, space, styles } from './tokens.ts';
import { drawVerdicts } from './verdicts.ts';

export function drawBlock(sheet: Sheet, block: DocumentBlock, drawer: SceneDrawer): void {
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
      drawScene(sheet, block, drawer);
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

/** Room a heading wants below itself, so that it never stands alone at the foot of a page. */
const roomBelowHeading = 84;

export function drawHeading(sheet: Sheet, words: string, roomBelow: number = roomBelowHeading): void {
  const lines = sheet.lines(styles.heading, words, sheet.width);
  const height = lines.length * styles.heading.leading;
  if (sheet.y > sheet.page.top) sheet.y += space.step;
  sheet.ensure(height + roomBelow);
  sheet.tag('H2', () => {
    sheet.y += sheet.write(lines, styles.heading, sheet.left, sheet.y, sheet.width);
  });
  sheet.y += 3;
  sheet.rule(sheet.y, rule.firm, colours.ink);
  sheet.y += space.step;
}

export function drawSection(sheet: Sheet, section: DocumentSection, drawer: SceneDrawer): void {
  sheet.group('Sect', () => {
    drawHeading(sheet, section.heading);
    for (const block of section.blocks) drawBlock(sheet, block, drawer);
  });
}
