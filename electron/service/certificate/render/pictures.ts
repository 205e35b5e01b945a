/** Photos in two columns, each tagged as a figure with words for who cannot see it, its caption and digest below. */
import type { PicturesBlock } from '../../../../core/certificate/document.ts';
import type { Sheet } from './sheet.ts';
import { colours, rule, space, styles } from './tokens.ts';

/** The bytes of a stored photo by its digest; undefined for one that was erased after it was sealed. */
export type PictureBytes = (digest: string) => Uint8Array | undefined;

type Picture = PicturesBlock['pictures'][number];

/** A row of photos is no higher than this, points. */
const MOST_HEIGHT = 190;
const COLUMNS = 2;

interface Placed {
  readonly picture: Picture;
  readonly x: number;
  readonly width: number;
  readonly height: number;
  /** What it shows, in ink; below it, quiet, where and when and its digest. */
  readonly caption: readonly string[];
  readonly facts: readonly string[];
}

function placed(sheet: Sheet, row: readonly Picture[]): readonly Placed[] {
  const column = (sheet.width - space.step * 2) / COLUMNS;
  return row.map((picture, i) => {
    const scale = Math.min(column / picture.widthPx, MOST_HEIGHT / picture.heightPx);
    return {
      picture,
      x: sheet.left + i * (column + space.step * 2),
      width: picture.widthPx * scale,
      height: picture.heightPx * scale,
      caption: sheet.lines(styles.cell, picture.caption, column),
      facts: picture.facts.flatMap((text) => sheet.lines(styles.small, text, column)),
    };
  });
}

function rowHeight(row: readonly Placed[]): { readonly pictures: number; readonly whole: number } {
  const pictures = Math.max(...row.map((each) => each.height));
  const below = Math.max(
    ...row.map(
      ({ caption, facts }) => caption.length * styles.cell.leading + facts.length * styles.small.leading,
    ),
  );
  return { pictures, whole: pictures + space.half + below };
}

function rowsOf(sheet: Sheet, block: PicturesBlock): readonly (readonly Placed[])[] {
  const rows: (readonly Placed[])[] = [];
  for (let i = 0; i < block.pictures.length; i += COLUMNS) {
    rows.push(placed(sheet, block.pictures.slice(i, i + COLUMNS)));
  }
  return rows;
}

/** Room the first row needs. */
export function picturesStart(sheet: Sheet, block: PicturesBlock): number {
  const [first] = rowsOf(sheet, block);
  return first === undefined ? 0 : rowHeight(first).whole;
}

function drawPicture(sheet: Sheet, { picture, x, width, height }: Placed, bytes: PictureBytes): void {
  const { doc, y } = sheet;
  sheet.tag(
    'Figure',
    () => {
      const found = bytes(picture.digest);
      if (found !== undefined) doc.image(Buffer.from(found), x, y, { width, height });
      doc.lineWidth(rule.hair).strokeColor(colours.pencil).rect(x, y, width, height).stroke();
    },
    { alt: picture.altText, bbox: [x, y, x + width, y + height], placement: 'Block' },
  );
}

export function drawPictures(sheet: Sheet, block: PicturesBlock, bytes: PictureBytes): void {
  for (const row of rowsOf(sheet, block)) {
    const { pictures, whole } = rowHeight(row);
    sheet.ensure(whole);
    for (const each of row) {
      drawPicture(sheet, each, bytes);
      sheet.tag('P', () => {
        const top = sheet.y + pictures + space.half;
        const width = sheet.width / COLUMNS;
        const used = sheet.write(each.caption, styles.cell, each.x, top, width);
        sheet.write(each.facts, styles.small, each.x, top + used, width);
      });
    }
    sheet.y += whole + space.step;
  }
}
