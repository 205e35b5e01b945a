/**
 * How much room a text takes, without asking a browser or a PDF library: advance widths of the one type family,
 * DejaVu Sans (its `hmtx` table, 2048 units per em, ASCII and the few signs drawings use). Kerning is left out; it
 * only ever makes a text narrower, in words by a per cent or two.
 */

const UNITS_PER_EM = 2048;

const REGULAR: readonly number[] = [
  651, 821, 942, 1716, 1303, 1946, 1597, 563, 799, 799, 1024, 1716, 651, 739, 651, 690, 1303, 1303, 1303,
  1303, 1303, 1303, 1303, 1303, 1303, 1303, 690, 690, 1716, 1716, 1716, 1087, 2048, 1401, 1405, 1430, 1577,
  1294, 1178, 1587, 1540, 604, 604, 1343, 1141, 1767, 1532, 1612, 1235, 1612, 1423, 1300, 1251, 1499, 1401,
  2025, 1403, 1251, 1403, 799, 690, 799, 1716, 1024, 1024, 1255, 1300, 1126, 1300, 1260, 721, 1300, 1298, 569,
  569, 1186, 569, 1995, 1298, 1253, 1300, 1300, 842, 1067, 803, 1298, 1212, 1675, 1212, 1212, 1075, 1303, 690,
  1303, 1716,
];

const BOLD: readonly number[] = [
  713, 934, 1067, 1716, 1425, 2052, 1786, 627, 936, 936, 1071, 1716, 778, 850, 778, 748, 1425, 1425, 1425,
  1425, 1425, 1425, 1425, 1425, 1425, 1425, 819, 819, 1716, 1716, 1716, 1188, 2048, 1585, 1561, 1503, 1700,
  1399, 1399, 1681, 1714, 762, 762, 1587, 1305, 2038, 1714, 1741, 1501, 1741, 1577, 1475, 1397, 1663, 1585,
  2259, 1579, 1483, 1485, 936, 748, 936, 1716, 1024, 1024, 1382, 1466, 1214, 1466, 1389, 891, 1466, 1458, 702,
  702, 1362, 702, 2134, 1458, 1407, 1466, 1466, 1010, 1219, 979, 1458, 1335, 1892, 1321, 1335, 1192, 1458,
  748, 1458, 1716,
];

/** Signs outside ASCII: regular and bold width. */
const SIGNS: ReadonlyMap<string, readonly [number, number]> = new Map([
  ['°', [1024, 1024]],
  ['×', [1716, 1716]],
  ['±', [1716, 1716]],
  ['–', [1024, 1024]],
  ['—', [2048, 2048]],
  ['’', [651, 778]],
  ['·', [651, 778]],
  ['→', [1716, 1716]],
  ['…', [2048, 2048]],
]);

/** The width of a sign that no table holds: a full em, so that a box is rather too wide than too narrow. */
const UNKNOWN_WIDTH = UNITS_PER_EM;

const FIRST_CODE = 32;

function advance(sign: string, bold: boolean): number {
  const pair = SIGNS.get(sign);
  if (pair !== undefined) return bold ? pair[1] : pair[0];
  const index = (sign.codePointAt(0) ?? 0) - FIRST_CODE;
  return (bold ? BOLD : REGULAR)[index] ?? UNKNOWN_WIDTH;
}

/** The width of one line of text in points: `textWidthPt('0', 2048, false)` gives 1303. */
export function textWidthPt(text: string, sizePt: number, bold: boolean): number {
  let units = 0;
  for (const sign of text) units += advance(sign, bold);
  return (units / UNITS_PER_EM) * sizePt;
}

/** Height of capitals and figures over the baseline, ems (DejaVu Sans: 1493 of 2048). */
export const CAP_HEIGHT_EM = 0.729;
/** Room over the baseline that a line takes, ems: accents and brackets included. */
export const ASCENT_EM = 0.78;
/** Room under the baseline that a line takes, ems: tails included. */
export const DESCENT_EM = 0.24;
