/** How this PC's screen is set: kept on the PC only, no part of any job's record. */
import type { LengthUnit } from '../../core/units.ts';
import { LANGUAGES, type Language } from '../../core/words/index.ts';

/** Light or dark as the system says, or as was chosen here. */
export const THEME_CHOICES = ['system', 'light', 'dark'] as const;
export type ThemeChoice = (typeof THEME_CHOICES)[number];

/** What lies over the window: the view for a person across the bay, or the lock while the glass is wiped. */
export type Cover = 'none' | 'distance' | 'wipe';

export const THEME_KEPT = 'datumline.theme';
export const KEYPAD_KEPT = 'datumline.keypad';
export const LANGUAGE_KEPT = 'datumline.language';
export const LENGTH_UNIT_KEPT = 'datumline.lengthUnit';

/** The units a length is shown in; what is typed may have any, and the record is in mm. */
export const LENGTH_UNITS = ['mm', 'in'] as const satisfies readonly LengthUnit[];

/** The language that was kept; anything else, or nothing, is English. */
export function languageOf(kept: string | null): Language {
  return LANGUAGES.find((each) => each === kept) ?? 'en';
}

/** The unit that was kept; anything else, or nothing, is mm. */
export function lengthUnitOf(kept: string | null): LengthUnit {
  return LENGTH_UNITS.find((each) => each === kept) ?? 'mm';
}

/** The choice that was kept; anything else, or nothing, follows the system. */
export function themeOf(kept: string | null): ThemeChoice {
  return THEME_CHOICES.find((each) => each === kept) ?? 'system';
}

/** The keypad is out where it was left out. */
export function keypadOf(kept: string | null): boolean {
  return kept === 'out';
}

/** The cover a key asks for on top of the one in sight; undefined where the key means nothing. */
export function coverOfKey(key: string, cover: Cover, distancePossible: boolean): Cover | undefined {
  // A lock that a wiped keyboard could open would be none.
  if (cover === 'wipe') return undefined;
  if (key === 'F9') return 'wipe';
  if (key !== 'F8') return undefined;
  if (cover === 'distance') return 'none';
  return distancePossible ? 'distance' : undefined;
}
