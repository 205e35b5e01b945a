/**
 * The one catalogue of wording. A topic keeps its own file (`core/words/<topic>.ts`, a flat record `as const`)
 * and is merged here; certificate, command line and window all speak through `say`. English is the language the
 * keys are defined in; every other language mirrors it topic by topic (`core/words/de/<topic>.ts`).
 */
import { BAY_WORDS } from './bay.ts';
import { CERTIFICATE } from './certificate.ts';
import { CHECK_WORDS } from './check.ts';
import { GERMAN } from './de/index.ts';
import { DRAWING_WORDS } from './drawing.ts';
import { EN } from './en.ts';
import { ENTRY_WORDS } from './entry.ts';
import { ERRORS } from './errors.ts';
import { INSTRUMENT_WORDS } from './instruments.ts';
import { type Language, spokenLanguage } from './language.ts';
import { PLACEMENT_WORDS } from './placement.ts';
import { PLANNING_WORDS } from './planning.ts';
import { PRECHECK_WORDS } from './prechecks.ts';
import { PROCEDURE_WORDS } from './procedure.ts';
import { RECIPE_WORDS } from './recipe.ts';
import { fillTemplate, type SlotValues } from './say.ts';
import { SCAN_WORDS } from './scan.ts';
import { STAGE_WORDS } from './stages.ts';
import { STUDY_WORDS } from './study.ts';
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
  prechecks: PRECHECK_WORDS,
  procedure: PROCEDURE_WORDS,
  recipe: RECIPE_WORDS,
  scan: SCAN_WORDS,
  stages: STAGE_WORDS,
  study: STUDY_WORDS,
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
  ...TOPICS.prechecks,
  ...TOPICS.procedure,
  ...TOPICS.recipe,
  ...TOPICS.scan,
  ...TOPICS.stages,
  ...TOPICS.study,
  ...TOPICS.vehicle,
  ...TOPICS.vehicleLines,
  ...TOPICS.window,
} as const;

/** A key of the catalogue. */
export type WordKey = keyof typeof WORDS;

/** All keys, in catalogue order. */
export const WORD_KEYS = Object.keys(WORDS) as readonly string[];

/** Every language words every key: a key without its German does not compile. */
const CATALOGUES: Readonly<Record<Language, Readonly<Record<WordKey, string>>>> = { en: WORDS, de: GERMAN };

/** The template behind a key in a language (the one spoken, unless named), or undefined for no key of the catalogue. */
export function templateOf(key: string, language: Language = spokenLanguage()): string | undefined {
  return isWordKey(key) ? CATALOGUES[language][key] : undefined;
}

/** Whether a text is a key of the catalogue. */
function isWordKey(key: string): key is WordKey {
  return Object.hasOwn(WORDS, key);
}

/** The wording of `key` in the spoken language, its slots filled: `say('dir.towardCar', { amount: '4.0 mm' })`. */
export function say(key: WordKey, values: SlotValues = {}): string {
  return fillTemplate(CATALOGUES[spokenLanguage()][key], values);
}

export {
  type DirectionKey,
  type DirectionWords,
  deviationInWords,
  moveInWords,
  sideKey,
  type TargetView,
} from './direction.ts';
export {
  inLanguage,
  LANGUAGE_NAMES,
  LANGUAGE_TAGS,
  LANGUAGES,
  type Language,
  languageOfTag,
  speak,
  spokenLanguage,
} from './language.ts';
export { type WordFault, wordFaults } from './plainWords.ts';
export { fillTemplate, type SlotValues, slotsOf } from './say.ts';
export { withoutThenRead } from './thenRead.ts';
