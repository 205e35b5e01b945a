/** One path or line of text of a sheet as an SVG element. */

import { cssName } from '../../core/drawing/palette.ts';
import type { PathCommand, PathShape, SheetShape, TextShape } from '../../core/drawing/sheetShape.ts';
import { assertNever } from '../../core/result.ts';

/** Sheet positions are written to a hundredth of a point, finer than any screen or printer. */
const round = (value: number): string => String(Math.round(value * 100) / 100);

const pair = (point: { readonly xPt: number; readonly yPt: number }): string =>
  `${round(point.xPt)} ${round(point.yPt)}`;

function commandText(command: PathCommand): string {
  switch (command.command) {
    case 'move':
      return `M${pair(command.to)}`;
    case 'line':
      return `L${pair(command.to)}`;
    case 'cubic':
      return `C${pair(command.control1)} ${pair(command.control2)} ${pair(command.to)}`;
    case 'close':
      return 'Z';
    default:
      return assertNever(command);
  }
}

/** The `d` of a path. */
export function pathText(commands: readonly PathCommand[]): string {
  return commands.map(commandText).join('');
}

function pathClass(shape: PathShape): string {
  const fill =
    shape.fill === undefined
      ? 'scene-fill-none'
      : `scene-fill-${cssName(shape.fill.role)}${shape.fill.tone === 'pale' ? '-pale' : ''}`;
  return shape.stroke === undefined ? fill : `${fill} scene-stroke-${cssName(shape.stroke.role)}`;
}

function PathSvg({ shape }: { readonly shape: PathShape }) {
  const dash = shape.stroke?.dashPt ?? [];
  return (
    <path
      className={pathClass(shape)}
      d={pathText(shape.commands)}
      strokeWidth={shape.stroke?.widthPt}
      strokeDasharray={dash.length === 0 ? undefined : dash.join(' ')}
    />
  );
}

function TextSvg({ shape }: { readonly shape: TextShape }) {
  const weight = shape.bold ? ' scene-text-bold' : '';
  return (
    <text
      className={`scene-text scene-fill-${cssName(shape.role)}${weight}`}
      x={round(shape.xPt)}
      y={round(shape.yPt)}
      fontSize={shape.sizePt}
      textAnchor={shape.align}
    >
      {shape.text}
    </text>
  );
}

/** A shape of the sheet. */
export function ShapeSvg({ shape }: { readonly shape: SheetShape }) {
  return shape.kind === 'path' ? <PathSvg shape={shape} /> : <TextSvg shape={shape} />;
}
