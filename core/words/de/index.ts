/** The German catalogue: every topic's record mirrors its English one, key by key and slot by slot. */
import { BAY_DE } from './bay.ts';
import { CERTIFICATE_DE } from './certificate.ts';
import { CHECK_DE } from './check.ts';
import { DE } from './de.ts';
import { DRAWING_DE } from './drawing.ts';
import { ENTRY_DE } from './entry.ts';
import { ERRORS_DE } from './errors.ts';
import { INSTRUMENT_DE } from './instruments.ts';
import { PLACEMENT_DE } from './placement.ts';
import { PLANNING_DE } from './planning.ts';
import { PRECHECK_DE } from './prechecks.ts';
import { PROCEDURE_DE } from './procedure.ts';
import { RECIPE_DE } from './recipe.ts';
import { SCAN_DE } from './scan.ts';
import { STAGE_DE } from './stages.ts';
import { STUDY_DE } from './study.ts';
import { VEHICLE_DE } from './vehicle.ts';
import { VEHICLE_LINE_DE } from './vehicleLines.ts';
import { WINDOW_DE } from './window.ts';

/** Key to German template. */
export const GERMAN = {
  ...BAY_DE,
  ...CERTIFICATE_DE,
  ...CHECK_DE,
  ...DE,
  ...DRAWING_DE,
  ...ENTRY_DE,
  ...ERRORS_DE,
  ...INSTRUMENT_DE,
  ...PLACEMENT_DE,
  ...PLANNING_DE,
  ...PRECHECK_DE,
  ...PROCEDURE_DE,
  ...RECIPE_DE,
  ...SCAN_DE,
  ...STAGE_DE,
  ...STUDY_DE,
  ...VEHICLE_DE,
  ...VEHICLE_LINE_DE,
  ...WINDOW_DE,
} as const;
