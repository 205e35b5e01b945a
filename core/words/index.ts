/**
 * The one catalogue of wording. A topic keeps its own file (`core/words/<topic>.ts`, a flat record `as const`)
 * and is merged here; certificate, command line and window all speak through `say`.
 */
import { BAY_WORDS } from './bay.ts';
import { CERTIFICATE } from './certificate.ts';
import { CHECK_WORDS } from './check.ts';
import { DRAWING_WORDS } from './drawing.ts';
import { EN } from './en.ts';
import { ENTRY_WORDS } from './entry.ts';
import { ERRORS } from './errors.ts';
import { INSTRUMENT_WORDS } from './instruments.ts';
import { PLACEMENT_WORDS } from './placement.ts';
import { PLANNING_WORDS } from './planning.ts';
import { PROCEDURE_WORDS } from './procedure.ts';
import { RECIPE_WORDS } from './recipe.ts';
import { fillTemplate, type SlotValues } from './say.ts';
import { SCAN_WORDS } from './scan.ts';
import { STAGE_WORDS } from './stages.ts';
import { VEHICLE_WORDS } from './vehicle.ts';
import { VEHICLE_LINE_WORDS } from './vehicleLines.ts';
import { WINDOW_WORDS } from './window.ts';

/** Every topic's record, named for messages about duplicate keys. */
export const TOPICS = {
  en: EN,
  bay: BAY_WORDS,
  certificate: CERTIFICATE,
  check: CHECK_WORDS,
  drawing: DRAWING_WORDS,
  entry: ENTRY_WORDS,
  errors: ERRORS,
  instruments: INSTRUMENT_WORDS,
  placement: PLACEMENT_WORDS,
  planning: PLANNING_WORDS,
  procedure: PROCEDURE_WORDS,
  recipe: RECIPE_WORDS,
  scan: SCAN_WORDS,
  stages: STAGE_WORDS,
  vehicle: VEHICLE_WORDS,
  vehicleLines: VEHICLE_LINE_WORDS,
  window: WINDOW_WORDS,
} as const;

const WORDS = {
  ...TOPICS.en,
  ...TOPICS.bay,
  ...TOPICS.certificate,
  ...TOPICS.check,
  ...TOPICS.drawing,
  ...TOPICS.entry,
  ...TOPICS.errors,
  ...TOPICS.instruments,
  ...TOPICS.placement,
  ...TOPICS.planning,
  ...TOPICS.procedure,
  ...TOPICS.recipe,
  ...TOPICS.scan,
  ...TOPICS.stages,
  ...TOPICS.vehicle,
  ...TOPICS.vehicleLines,
  ...TOPICS.window,
} as const;

/** A key of the catalogue. */
export type WordKey = keyof typeof WORDS;

/** All keys, in catalogue order. */
export const WORD_KEYS = Object.keys(WORDS) as readonly string[];

/** The template behind a key, or undefined for a key that is not in the catalogue. */
export function templateOf(key: string): string | undefined {
  const all: Readonly<Record<string, string>> = WORDS;
  return Object.hasOwn(all, key) ? all[key] : undefined;
}

/** The wording of `key` with its slots filled: `say('dir.towardCar', { amount: '4.0 mm' })`. */
export function say(key: WordKey, values: SlotValues = {}): string {
  return fillTemplate(WORDS[key], values);
}

export {
  type DirectionKey,
  type DirectionWords,
  deviationInWords,
  moveInWords,
  sideKey,
  type TargetView,
} from './direction.ts';
export { type WordFault, wordFaults } from './plainWords.ts';
export { fillTemplate, type SlotValues, slotsOf } from './say.ts';
