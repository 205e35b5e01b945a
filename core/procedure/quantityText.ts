/**
 * One length or angle of a procedure as the maker wrote it: a plain quantity (`53 1/8 in`, `0.5°`, `3 mm/m`) or
 * an expression over units and inputs. A number other than zero must carry its unit, and what may be grouped
 * digits is refused: a procedure is read once and used on many cars.
 */
import { parseQuantity } from '../entry/index.ts';
import { err, ok, type Result } from '../result.ts';
import { type EvaluationError, evaluate, type InputValues } from './evaluate.ts';
import { type Expression, type ExpressionError, parseExpression } from './expression.ts';
import { isPlain, type Measure } from './measure.ts';

/** Why a text of a procedure gives no length or angle; `at` is the piece it fails at. */
export type QuantityTextError = {
  readonly code:
    | ExpressionError['code']
    | EvaluationError['code']
    | 'procedure/unitMissing'
    | 'procedure/groupingDoubtful';
  readonly at: string;
};

/** What a text stands for: a fixed value in mm or rad, or a tree to evaluate. */
export type QuantityText =
  | { readonly kind: 'fixed'; readonly value: number }
  | { readonly kind: 'expression'; readonly expression: Expression };

/** `12-3/4` is a mixed number to one reader and a difference to another, so it is never read as a quantity. */
const HYPHEN_BETWEEN_DIGITS = /\d\s*-\s*\d/;
const ONLY_DIGITS = /^[\d.,/ +-]*$/;

/** Reads a text of a procedure without evaluating it. */
export function readQuantityText(
  text: string,
  quantity: 'length' | 'angle',
): Result<QuantityText, QuantityTextError> {
  if (!HYPHEN_BETWEEN_DIGITS.test(text)) {
    const typed = parseQuantity(text, { kind: quantity });
    if (typed.ok) {
      const { value, questions } = typed.value;
      if (questions.length > 0) return err({ code: 'procedure/groupingDoubtful', at: text });
      if (value !== 0 && ONLY_DIGITS.test(text)) return err({ code: 'procedure/unitMissing', at: text });
      return ok({ kind: 'fixed', value });
    }
  }
  const expression = parseExpression(text);
  return expression.ok ? ok({ kind: 'expression', expression: expression.value }) : expression;
}

/** The value in mm or rad of what was read, over the given inputs. */
export function quantityValue(
  read: QuantityText,
  quantity: 'length' | 'angle',
  inputs: InputValues,
): Result<number, QuantityTextError> {
  if (read.kind === 'fixed') return ok(read.value);
  const measured = evaluate(read.expression, inputs);
  if (!measured.ok) return measured;
  const measure = measured.value;
  if (isPlain(measure)) {
    return measure.value === 0 ? ok(0) : err({ code: 'procedure/unitMissing', at: `${measure.value}` });
  }
  return isOf(quantity, measure)
    ? ok(measure.value)
    : err({ code: 'procedure/unitsDoNotMatch', at: quantity });
}

function isOf(quantity: 'length' | 'angle', measure: Measure): boolean {
  return quantity === 'length'
    ? measure.length === 1 && measure.angle === 0
    : measure.length === 0 && measure.angle === 1;
}
