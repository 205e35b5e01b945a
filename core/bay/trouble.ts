/**
 * A refusal of the bay or the car in plain words: the caution first where there is one, then what happened, what to do
 * next, whether the work is safe. A code without wording does not compile here.
 */
import { formatFixed, formatLength, type LengthUnit } from '../units.ts';
import { type SlotValues, say, slotsOf, templateOf, type WordKey } from '../words/index.ts';

/** Codes that have their three sentences in the catalogue. */
export type WordedCode = WordKey extends infer K ? (K extends `error.${infer C}.what` ? C : never) : never;

/** The sentences, in the order they are said. */
export interface Trouble {
  readonly caution: string | undefined;
  readonly what: string;
  readonly next: string;
  readonly safe: string;
}

/** Families of words for a detail that is a name of ours and not text of the shop. */
const FAMILIES = ['bay.wheel.', 'bay.support.', 'bay.outline.'] as const;

function nameText(name: string): string {
  return FAMILIES.map((family) => templateOf(`${family}${name}`)).find((text) => text !== undefined) ?? name;
}

function detailText(field: string, detail: unknown, unit: LengthUnit): string {
  if (Array.isArray(detail)) return detail.map((one) => detailText(field, one, unit)).join(', ');
  if (typeof detail === 'string') return nameText(detail);
  if (typeof detail !== 'number' || !Number.isFinite(detail)) return '?';
  if (field.endsWith('Mm')) return formatLength(detail, 0, unit);
  // People count from one.
  return formatFixed(field === 'index' ? detail + 1 : detail, 0);
}

function sentence(key: string, details: ReadonlyMap<string, unknown>, unit: LengthUnit): string {
  const template = templateOf(key) ?? '';
  return slotsOf(template).reduce(
    (text, slot) => text.replaceAll(`{${slot}}`, detailText(slot, details.get(slot), unit)),
    template,
  );
}

/** The words of an error, its lengths in the person's unit. */
export function troubleOf(
  error: { readonly code: WordedCode; readonly caution?: WordKey | undefined },
  unit: LengthUnit = 'mm',
): Trouble {
  const details = new Map<string, unknown>(Object.entries(error));
  const part = (name: 'what' | 'next' | 'safe'): string =>
    sentence(`error.${error.code}.${name}`, details, unit);
  return {
    caution: error.caution === undefined ? undefined : say(error.caution, NO_VALUES),
    what: part('what'),
    next: part('next'),
    safe: part('safe'),
  };
}

const NO_VALUES: SlotValues = {};
