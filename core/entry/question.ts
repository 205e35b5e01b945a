/**
 * Questions about a reading that has a value but looks like a slip: below zero, beyond what is plausible, ten
 * times or a tenth, inches for millimetres, 100 mm of a tape's start, sides exchanged. Nothing is refused: each
 * question offers cures to take with one tap, and the typed text stays. Proof is read blind, so the expectation
 * is used only after the entry and only to ask.
 */
import { MM_PER_INCH } from '../units.ts';
import type { Cure, EntryQuestion, QuestionKey } from './quantity.ts';

/** The partner of a reading: the same quantity on the other side of the car, in the same unit. */
export type PairReading = {
  readonly value: number;
  /** What the partner is expected to show. */
  readonly expected?: number;
  /** True when the two are about equal on a straight car, so that one can stand in as the other's expectation. */
  readonly alike?: boolean;
};

/** What is known about a reading beforehand, all in the reading's own unit (mm, rad, ...). */
export type ReadingContext = {
  /** What a car and a bay can show at all. */
  readonly limits: { readonly min: number; readonly max: number };
  readonly expected?: number;
  readonly pair?: PairReading;
  /**
   * How near a reading must come to what is expected to be taken without a question; by default 5 % of it and
   * at least 30 (mm). Give it for angles.
   */
  readonly near?: number;
};

/** Share of an expected length within which nobody is asked. */
const NEAR_SHARE = 0.05;
/** Least distance from an expected length within which nobody is asked, mm. */
const NEAR_LEAST_MM = 30;
/** A cure is believed when it lands this many times nearer than the question's reach. */
const CURE_REACH = 0.5;
/** Exchanged sides are believed when both readings together then miss by less than this share of the gap. */
const SWAP_SHARE = 0.5;
/** Two expectations nearer to each other than this share of the reach cannot tell the sides apart. */
const SWAP_LEAST_GAP = 0.1;
const TAPE_START_MM = 100;
/** Partners that differ by 100 mm within this much differ by a tape's start, mm. */
const TAPE_START_AGREEMENT_MM = 5;

type Slip = { readonly key: QuestionKey; readonly cured: (value: number) => number };

const FACTOR_SLIPS: readonly Slip[] = [
  { key: 'slip.tenTimesTooBig', cured: (value) => value / 10 },
  { key: 'slip.tenTimesTooSmall', cured: (value) => value * 10 },
  { key: 'slip.inchesAsMm', cured: (value) => value * MM_PER_INCH },
  { key: 'slip.mmAsInches', cured: (value) => value / MM_PER_INCH },
];

const START_SLIPS: readonly Slip[] = [
  { key: 'slip.hundredTooMuch', cured: (value) => value - TAPE_START_MM },
  { key: 'slip.hundredTooLittle', cured: (value) => value + TAPE_START_MM },
];

const keep = (value: number): Cure => ({ key: 'cure.keep', value });
const take = (value: number): Cure => ({ key: 'cure.take', value });

/**
 * The question a reading raises, or undefined when none. `questionReading(135, { limits: { min: 100, max: 4000 },
 * expected: 1350 })` asks `slip.tenTimesTooSmall` and offers 1350. The last cure always keeps the value.
 */
export function questionReading(value: number, context: ReadingContext): EntryQuestion | undefined {
  const { limits } = context;
  if (value < 0 && limits.min >= 0) {
    return { key: 'slip.negative', cures: [take(-value), keep(value)] };
  }
  return swappedSides(value, context) ?? farFromExpected(value, context) ?? outOfRange(value, limits);
}

function reach(expected: number, context: ReadingContext): number {
  return context.near ?? Math.max(NEAR_LEAST_MM, NEAR_SHARE * Math.abs(expected));
}

/** The expectation: the given one, else the partner's value where the two are alike. */
function expectation(context: ReadingContext): number | undefined {
  return context.expected ?? (context.pair?.alike === true ? context.pair.value : undefined);
}

function farFromExpected(value: number, context: ReadingContext): EntryQuestion | undefined {
  const expected = expectation(context);
  if (expected === undefined) return undefined;
  const near = reach(expected, context);
  const startSlip = tapeStart(value, expected);
  if (startSlip !== undefined) return startSlip;
  if (Math.abs(value - expected) <= near) return undefined;
  const likely = [...FACTOR_SLIPS, ...START_SLIPS]
    .map((slip) => ({ key: slip.key, value: slip.cured(value) }))
    .map((cure) => ({ ...cure, miss: Math.abs(cure.value - expected) }))
    .filter((cure) => cure.miss <= near * CURE_REACH)
    .sort((a, b) => a.miss - b.miss);
  const [best] = likely;
  if (best === undefined) return { key: 'slip.farOff', cures: [keep(value)] };
  return { key: best.key, cures: [take(best.value), keep(value)] };
}

/** Exactly 100 mm off is asked even where 100 mm would count as near, because no tape errs by that. */
function tapeStart(value: number, expected: number): EntryQuestion | undefined {
  const slip = START_SLIPS.find((each) => Math.abs(each.cured(value) - expected) <= TAPE_START_AGREEMENT_MM);
  return slip === undefined ? undefined : { key: slip.key, cures: [take(slip.cured(value)), keep(value)] };
}

function swappedSides(value: number, context: ReadingContext): EntryQuestion | undefined {
  const { expected, pair } = context;
  if (expected === undefined || pair?.expected === undefined) return undefined;
  const gap = Math.abs(expected - pair.expected);
  const asRead = Math.abs(value - expected) + Math.abs(pair.value - pair.expected);
  const exchanged = Math.abs(pair.value - expected) + Math.abs(value - pair.expected);
  // Both must fit far better the other way round, and the two expectations must be apart enough to tell.
  if (gap < reach(expected, context) * SWAP_LEAST_GAP) return undefined;
  if (exchanged > gap * SWAP_SHARE || asRead < gap * (2 - SWAP_SHARE)) return undefined;
  return {
    key: 'slip.swappedSides',
    cures: [{ key: 'cure.exchange', value: pair.value, pairValue: value }, keep(value)],
  };
}

function outOfRange(value: number, limits: ReadingContext['limits']): EntryQuestion | undefined {
  const inside = (candidate: number): boolean => candidate >= limits.min && candidate <= limits.max;
  if (inside(value)) return undefined;
  const fitting = FACTOR_SLIPS.map((slip) => ({ key: slip.key, value: slip.cured(value) })).filter((cure) =>
    inside(cure.value),
  );
  const [first] = fitting;
  const cures = [...fitting.map((cure) => take(cure.value)), keep(value)];
  return { key: fitting.length === 1 && first !== undefined ? first.key : 'slip.outOfRange', cures };
}
