/** Wording by a key that came as data: from a table, an answer of the engine, the service. */
import { fillTemplate, type SlotValues, templateOf } from '../../core/words/index.ts';

/** The wording of a key, or the key itself where the catalogue has none, so that a gap shows instead of a blank. */
export function sayKey(key: string, values: SlotValues = {}): string {
  const template = templateOf(key);
  return template === undefined ? key : fillTemplate(template, values);
}
