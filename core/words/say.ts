/**
 * A catalogue of wording: a flat record from a key to a template with `{name}` slots. Numbers enter as text,
 * already rounded and with their unit, so that wording never rounds and a template never shows a bare double.
 */
import { invariant } from '../result.ts';

/** Values for the slots of a template. */
export type SlotValues = Readonly<Record<string, string>>;

const SLOT = /\{([A-Za-z][A-Za-z0-9]*)\}/g;

/** The slot names of a template in order of appearance: `slotsOf('{a} of {b}')` gives `['a', 'b']`. */
export function slotsOf(template: string): readonly string[] {
  return [...template.matchAll(SLOT)].map((match) => match[1] ?? '');
}

/** The template with every slot filled; a slot without a value, or a value without a slot, is a bug and throws. */
export function fillTemplate(template: string, values: SlotValues): string {
  const slots = slotsOf(template);
  for (const slot of slots) {
    invariant(Object.hasOwn(values, slot), `no value for {${slot}} in "${template}"`);
  }
  for (const name of Object.keys(values)) {
    invariant(slots.includes(name), `no slot for value "${name}" in "${template}"`);
  }
  return template.replace(SLOT, (_whole, slot: string) => values[slot] ?? '');
}
