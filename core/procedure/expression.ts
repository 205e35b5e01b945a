/**
 * Expressions of a procedure, read by mathjs' parser alone (nothing of mathjs ever evaluates) and walked once
 * into our own small tree. What the walk does not know is refused: no functions but seven, no assignment,
 * member, index, range, string, matrix or condition. Juxtaposition is allowed for a number before a unit only.
 */
import { create, type MathNode, parseDependencies } from 'mathjs/number';
import { err, invariant, ok, type Result } from '../result.ts';

/** Longest text of an expression, characters. */
export const EXPRESSION_LENGTH_LIMIT = 300;
/** Most nodes of its tree. */
export const EXPRESSION_NODE_LIMIT = 100;
/** Largest whole exponent, either sign; lengths to the third power are the most a station could need. */
export const EXPONENT_LIMIT = 6;

/** Units an expression may name; `in` is read as `inch`. */
export const EXPRESSION_UNITS = ['mm', 'cm', 'm', 'inch', 'ft', 'deg', 'rad'] as const;
/** Functions an expression may call; sind, cosd and tand take an angle, or a bare number of degrees. */
export const EXPRESSION_FUNCTIONS = ['min', 'max', 'abs', 'sqrt', 'sind', 'cosd', 'tand'] as const;

/** A unit of an expression. */
export type ExpressionUnit = (typeof EXPRESSION_UNITS)[number];
/** A function of an expression. */
export type ExpressionFunction = (typeof EXPRESSION_FUNCTIONS)[number];

/** Our own tree of an expression. */
export type Expression =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'unit'; readonly unit: ExpressionUnit }
  | { readonly kind: 'input'; readonly name: string }
  | { readonly kind: 'negate'; readonly of: Expression }
  | { readonly kind: 'power'; readonly base: Expression; readonly exponent: number }
  | {
      readonly kind: 'binary';
      readonly operator: '+' | '-' | '*' | '/';
      readonly left: Expression;
      readonly right: Expression;
    }
  | { readonly kind: 'call'; readonly name: ExpressionFunction; readonly args: readonly Expression[] };

/** Why a text is no expression; `at` names the piece. */
export type ExpressionError = {
  readonly code:
    | 'procedure/expressionEmpty'
    | 'procedure/expressionTooLong'
    | 'procedure/expressionTooComplex'
    | 'procedure/expressionUnreadable'
    | 'procedure/expressionNotAllowed';
  readonly at: string;
};

function isIn<T extends string>(list: readonly T[], name: string): name is T {
  return list.some((item) => item === name);
}

/** Characters that occur in an allowed expression; strings, blocks, indices, comments end here already. */
const ALLOWED_TEXT = /^[A-Za-z0-9.,+\-*/^() ]*$/;
/** Numbers in another base, or with a letter stuck to them other than an exponent, are not plain numbers. */
const ODD_NUMBER = /(?:^|[^A-Za-z0-9])0[xXbBoO]/;

const notAllowed = (at: string): Result<never, ExpressionError> =>
  err({ code: 'procedure/expressionNotAllowed', at: at.slice(0, 40) });

/**
 * Reads an expression into our tree. `parseExpression('reach + 1500 mm')` gives a sum of an input and a
 * product of a number with a unit.
 */
export function parseExpression(text: string): Result<Expression, ExpressionError> {
  if (text.trim() === '') return err({ code: 'procedure/expressionEmpty', at: '' });
  if (text.length > EXPRESSION_LENGTH_LIMIT) {
    return err({ code: 'procedure/expressionTooLong', at: text.slice(0, 40) });
  }
  if (!ALLOWED_TEXT.test(text) || ODD_NUMBER.test(text)) return notAllowed(text);
  const parsed = parseText(text);
  if (!parsed.ok) return parsed;
  let nodes = 0;
  parsed.value.traverse(() => {
    nodes += 1;
  });
  if (nodes > EXPRESSION_NODE_LIMIT) return err({ code: 'procedure/expressionTooComplex', at: `${nodes}` });
  return walk(parsed.value);
}

/** mathjs reads a bare `in` as its conversion operator, which would bind looser than any sum: it becomes `inch`. */
const INCH_WORD = /(?<![A-Za-z])in(?![A-Za-z0-9])/g;

type Parse = (text: string) => MathNode;
let parser: Parse | undefined;

/** mathjs' parser alone, without its functions, made when the first expression is read: programs start without it. */
function mathParser(): Parse {
  if (parser === undefined) {
    invariant(parseDependencies !== undefined, 'mathjs has its parser');
    parser = create(parseDependencies).parse;
  }
  return parser;
}

/** The one call into mathjs; its parser reports a bad text by throwing. */
function parseText(text: string): Result<MathNode, ExpressionError> {
  const parse = mathParser();
  try {
    return ok(parse(text.replace(INCH_WORD, 'inch')));
  } catch {
    return err({ code: 'procedure/expressionUnreadable', at: text.slice(0, 40) });
  }
}

/** The members of mathjs' nodes that the walk looks at; everything else stays unseen. */
type SeenNode = {
  readonly type: string;
  readonly value?: unknown;
  readonly name?: unknown;
  readonly op?: unknown;
  readonly implicit?: unknown;
  readonly content?: SeenNode;
  readonly fn?: SeenNode | string;
  readonly args?: readonly SeenNode[];
};

function walk(node: SeenNode): Result<Expression, ExpressionError> {
  switch (node.type) {
    case 'ConstantNode':
      return typeof node.value === 'number' && Number.isFinite(node.value)
        ? ok({ kind: 'number', value: node.value })
        : notAllowed(String(node.value));
    case 'SymbolNode':
      return typeof node.name === 'string' ? named(node.name) : notAllowed('name');
    case 'ParenthesisNode':
      return node.content === undefined ? notAllowed('()') : walk(node.content);
    case 'OperatorNode':
      return operated(node);
    case 'FunctionNode':
      return called(node);
    default:
      return notAllowed(node.type.replace(/Node$/, ''));
  }
}

function named(name: string): Result<Expression, ExpressionError> {
  return ok(isIn(EXPRESSION_UNITS, name) ? { kind: 'unit', unit: name } : { kind: 'input', name });
}

function operated(node: SeenNode): Result<Expression, ExpressionError> {
  const [first, second, ...rest] = node.args ?? [];
  if (first === undefined || rest.length > 0) return notAllowed(String(node.op));
  if (second === undefined) return signed(node.op, first);
  const left = walk(first);
  if (!left.ok) return left;
  if (node.op === '^') return raised(left.value, second);
  const right = walk(second);
  if (!right.ok) return right;
  if (node.implicit === true && !(isBare(left.value) && isUnitPart(right.value)))
    return notAllowed('two values side by side');
  const operator = node.op;
  if (operator === '+' || operator === '-' || operator === '*' || operator === '/') {
    return ok({ kind: 'binary', operator, left: left.value, right: right.value });
  }
  return notAllowed(String(operator));
}

/** True for a tree of numbers alone: what may stand directly before a unit. */
function isBare(part: Expression): boolean {
  switch (part.kind) {
    case 'number':
      return true;
    case 'unit':
    case 'input':
      return false;
    case 'negate':
      return isBare(part.of);
    case 'power':
      return isBare(part.base);
    case 'binary':
      return isBare(part.left) && isBare(part.right);
    case 'call':
      return part.args.every(isBare);
  }
}

/** Only a unit, or a unit to a power, may stand beside a number without an operator. */
function isUnitPart(part: Expression): boolean {
  return part.kind === 'unit' || (part.kind === 'power' && part.base.kind === 'unit');
}

function signed(operator: unknown, operand: SeenNode): Result<Expression, ExpressionError> {
  const of = walk(operand);
  if (!of.ok) return of;
  if (operator === '-') return ok({ kind: 'negate', of: of.value });
  return operator === '+' ? of : notAllowed(String(operator));
}

function raised(base: Expression, exponentNode: SeenNode): Result<Expression, ExpressionError> {
  const exponent = walk(exponentNode);
  if (!exponent.ok) return exponent;
  const { value } = exponent;
  const n =
    value.kind === 'number'
      ? value.value
      : value.kind === 'negate' && value.of.kind === 'number'
        ? -value.of.value
        : Number.NaN;
  if (!Number.isInteger(n) || Math.abs(n) > EXPONENT_LIMIT) return notAllowed('exponent');
  return ok({ kind: 'power', base, exponent: n });
}

function called(node: SeenNode): Result<Expression, ExpressionError> {
  const fn = node.fn;
  const name = typeof fn === 'string' ? fn : fn?.type === 'SymbolNode' ? fn.name : undefined;
  if (typeof name !== 'string' || !isIn(EXPRESSION_FUNCTIONS, name))
    return notAllowed(String(name ?? 'call'));
  const args: Expression[] = [];
  for (const arg of node.args ?? []) {
    const walked = walk(arg);
    if (!walked.ok) return walked;
    args.push(walked.value);
  }
  const many = name === 'min' || name === 'max';
  if (args.length === 0 || (!many && args.length !== 1)) return notAllowed(`${name}()`);
  return ok({ kind: 'call', name, args });
}

/** The names of inputs an expression needs, each once. */
export function inputNames(expression: Expression): readonly string[] {
  switch (expression.kind) {
    case 'number':
    case 'unit':
      return [];
    case 'input':
      return [expression.name];
    case 'negate':
      return inputNames(expression.of);
    case 'power':
      return inputNames(expression.base);
    case 'binary':
      return [...new Set([...inputNames(expression.left), ...inputNames(expression.right)])];
    case 'call':
      return [...new Set(expression.args.flatMap(inputNames))];
  }
}
