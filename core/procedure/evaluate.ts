/** The value of an expression over measured inputs, with its dimension checked at every step. */
import { err, ok, type Result } from '../result.ts';
import { mmFromCm, mmFromFoot, mmFromInch, mmFromM, radFromDeg } from '../units.ts';
import type { Expression, ExpressionFunction, ExpressionUnit } from './expression.ts';
import {
  angleOf,
  isPlain,
  lengthOf,
  type Measure,
  over,
  plain,
  sameKind,
  times,
  wholePower,
} from './measure.ts';

/** Why an expression has no value; `at` names the piece. */
export type EvaluationError = {
  readonly code:
    | 'procedure/inputMissing'
    | 'procedure/unitsDoNotMatch'
    | 'procedure/divisionByZero'
    | 'procedure/notANumber';
  readonly at: string;
};

/** Values of the inputs by name. */
export type InputValues = ReadonlyMap<string, Measure>;

const UNITS: Readonly<Record<ExpressionUnit, Measure>> = {
  mm: lengthOf(1),
  cm: lengthOf(mmFromCm(1)),
  m: lengthOf(mmFromM(1)),
  inch: lengthOf(mmFromInch(1)),
  ft: lengthOf(mmFromFoot(1)),
  deg: angleOf(radFromDeg(1)),
  rad: angleOf(1),
};

const fail = (code: EvaluationError['code'], at: string): Result<never, EvaluationError> => err({ code, at });

/**
 * Evaluates an expression. Fails with `procedure/unitsDoNotMatch` when unlike things are added or compared,
 * `procedure/inputMissing` for a name without a value, `procedure/divisionByZero`, and `procedure/notANumber`
 * for a result that is not finite (square root of a negative number, overflow).
 */
export function evaluate(expression: Expression, inputs: InputValues): Result<Measure, EvaluationError> {
  const result = unchecked(expression, inputs);
  if (!result.ok) return result;
  return Number.isFinite(result.value.value) ? result : fail('procedure/notANumber', expression.kind);
}

function unchecked(expression: Expression, inputs: InputValues): Result<Measure, EvaluationError> {
  switch (expression.kind) {
    case 'number':
      return ok(plain(expression.value));
    case 'unit':
      return ok(UNITS[expression.unit]);
    case 'input': {
      const value = inputs.get(expression.name);
      return value === undefined ? fail('procedure/inputMissing', expression.name) : ok(value);
    }
    case 'negate': {
      const of = evaluate(expression.of, inputs);
      return of.ok ? ok({ ...of.value, value: -of.value.value }) : of;
    }
    case 'power': {
      const base = evaluate(expression.base, inputs);
      if (!base.ok) return base;
      if (base.value.value === 0 && expression.exponent < 0) return fail('procedure/divisionByZero', '^');
      return ok(wholePower(base.value, expression.exponent));
    }
    case 'binary':
      return combined(expression, inputs);
    case 'call':
      return applied(expression.name, expression.args, inputs);
  }
}

function combined(
  expression: Extract<Expression, { kind: 'binary' }>,
  inputs: InputValues,
): Result<Measure, EvaluationError> {
  const left = evaluate(expression.left, inputs);
  if (!left.ok) return left;
  const right = evaluate(expression.right, inputs);
  if (!right.ok) return right;
  const [a, b] = [left.value, right.value];
  switch (expression.operator) {
    case '*':
      return ok(times(a, b));
    case '/':
      return b.value === 0 ? fail('procedure/divisionByZero', '/') : ok(over(a, b));
    case '+':
      return sameKind(a, b)
        ? ok({ ...a, value: a.value + b.value })
        : fail('procedure/unitsDoNotMatch', expression.operator);
    case '-':
      return sameKind(a, b)
        ? ok({ ...a, value: a.value - b.value })
        : fail('procedure/unitsDoNotMatch', expression.operator);
  }
}

function applied(
  name: ExpressionFunction,
  args: readonly Expression[],
  inputs: InputValues,
): Result<Measure, EvaluationError> {
  const values: Measure[] = [];
  for (const arg of args) {
    const value = evaluate(arg, inputs);
    if (!value.ok) return value;
    values.push(value.value);
  }
  const [first] = values;
  if (first === undefined) return fail('procedure/notANumber', name);
  switch (name) {
    case 'abs':
      return ok({ ...first, value: Math.abs(first.value) });
    case 'sqrt':
      if (first.length % 2 !== 0 || first.angle % 2 !== 0) return fail('procedure/unitsDoNotMatch', name);
      return ok({ value: Math.sqrt(first.value), length: first.length / 2, angle: first.angle / 2 });
    case 'min':
    case 'max': {
      if (!values.every((value) => sameKind(value, first))) return fail('procedure/unitsDoNotMatch', name);
      const numbers = values.map((value) => value.value);
      return ok({ ...first, value: name === 'min' ? Math.min(...numbers) : Math.max(...numbers) });
    }
    case 'sind':
    case 'cosd':
    case 'tand': {
      if (first.length !== 0 || first.angle < 0 || first.angle > 1)
        return fail('procedure/unitsDoNotMatch', name);
      const angleRad = isPlain(first) ? radFromDeg(first.value) : first.value;
      const of = name === 'sind' ? Math.sin : name === 'cosd' ? Math.cos : Math.tan;
      return ok(plain(of(angleRad)));
    }
  }
}
