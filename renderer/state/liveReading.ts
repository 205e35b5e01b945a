/**
 * From an instrument that sends lines to the value of a reading: a tape's start taken off, a sign turned into the way a
 * tilt goes. Pure.
 */
import type { LineStream } from '../../core/instruments/index.ts';
import type { Equipment, Instrument } from '../../core/job/equipment.ts';
import type { Payload } from '../../core/job/events.ts';
import type { Shop } from '../../core/job/shop.ts';
import type { TiltDirection } from '../../core/placement/placementReading.ts';
import type { ReadingSpec } from '../../core/placement/recipe.ts';
import type { Slot } from './readings.ts';
import type { NewestValue } from './streams.ts';

/** A tape that starts at its 100 mark shows this much too much, mm. */
const HUNDRED_MM = 100;
/** What a reading keeps of its text at most, characters. */
const MOST_TEXT = 60;

export type Taken = NonNullable<Payload<'readingRecorded'>['taken']>;

/** A value of an instrument as a reading takes it. mm or radians. */
export interface LiveRead {
  readonly value: number;
  readonly direction: TiltDirection | undefined;
  /** True where a tilt's way was not chosen yet. */
  readonly needsWay: boolean;
  readonly taken: Taken;
  /** The last line, as long as a reading keeps a text. */
  readonly text: string;
}

/** Draft key of the sign the instrument showed when the way of a tilt was chosen. */
export function signKey(slot: Slot): string {
  return `${slot.draft}#sign`;
}

/**
 * How an instrument sends. Where it is plugged in may have changed since the job's equipment was frozen, so the shop's
 * present word counts before the frozen one.
 */
export function streamOf(instrument: Instrument, shop: Shop | null): LineStream | undefined {
  return shop?.instruments.find((each) => each.id === instrument.id)?.stream ?? instrument.stream;
}

/** How an instrument sends values of what a reading is; undefined where it sends none, or values of another kind. */
export function streamFor(
  spec: Pick<ReadingSpec, 'unit'>,
  instrument: Instrument | undefined,
  shop: Shop | null,
): LineStream | undefined {
  const stream = instrument === undefined ? undefined : streamOf(instrument, shop);
  const kind = spec.unit === 'deg' ? 'angle' : 'length';
  return stream?.format.kind === kind ? stream : undefined;
}

/** Every instrument of the equipment that sends. */
export function streamsOf(
  equipment: Equipment | null,
  shop: Shop | null,
): readonly { readonly instrument: string; readonly stream: LineStream }[] {
  return (equipment?.instruments ?? []).flatMap((each) => {
    const stream = streamOf(each, shop);
    return stream === undefined ? [] : [{ instrument: each.id, stream }];
  });
}

/** The sign of a number as it is kept beside a chosen way. */
export function signOf(value: number): '+' | '-' {
  return value < 0 ? '-' : '+';
}

/**
 * The way a tilt goes: the one that was chosen while the value had the sign it has now, else the other one, so that it
 * turns by itself as the body passes the level.
 */
function wayOf(
  directions: readonly [TiltDirection, TiltDirection],
  chosen: TiltDirection | undefined,
  signThen: string | undefined,
  value: number,
): TiltDirection | undefined {
  if (chosen === undefined || (signThen !== '+' && signThen !== '-')) return undefined;
  if (signThen === signOf(value)) return chosen;
  return directions.find((each) => each !== chosen);
}

/** The reading that a value makes: `mean` of the newest take, or, for a preview, the newest value alone. */
export function liveRead(
  slot: Slot,
  newest: NewestValue,
  instrument: Instrument | undefined,
  way: { readonly chosen: TiltDirection | undefined; readonly sign: string | undefined },
  mean = newest.take.mean,
): LiveRead {
  const { n, s } = newest.take;
  const common = {
    taken: { n, mean: newest.take.mean, s, lastLine: newest.line },
    text: newest.line.slice(0, MOST_TEXT),
  };
  const { directions } = slot.spec;
  if (directions === undefined) {
    const startMm = instrument?.kind === 'tape' && instrument.startsAt === 'hundred' ? HUNDRED_MM : 0;
    const fromStart = slot.spec.unit === 'deg' ? mean : mean - startMm;
    return { ...common, value: fromStart, direction: undefined, needsWay: false };
  }
  const direction = wayOf(directions, way.chosen, way.sign, mean);
  return { ...common, value: Math.abs(mean), direction, needsWay: direction === undefined && mean !== 0 };
}
