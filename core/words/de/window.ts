/** German wording of the window itself, a file a screen. */
import { ACTS_DE } from './window/acts.ts';
import { BAY_SCREEN_DE } from './window/bay.ts';
import { DATUM_DE } from './window/datum.ts';
import { FIRST_RUN_DE } from './window/firstRun.ts';
import { HISTORY_DE } from './window/history.ts';
import { HOME_DE } from './window/home.ts';
import { JOB_DE } from './window/job.ts';
import { MARKS_DE } from './window/marks.ts';
import { PHOTOS_DE } from './window/photos.ts';
import { PLACEMENT_DE } from './window/placement.ts';
import { PROCEDURE_FORM_DE } from './window/procedureForm.ts';
import { PROCEDURE_REVIEW_DE } from './window/procedureReview.ts';
import { READINGS_DE } from './window/readings.ts';
import { REHEARSAL_DE } from './window/rehearsal.ts';
import { SENSORS_DE } from './window/sensors.ts';
import { SETTINGS_DE } from './window/settings.ts';
import { SHOP_DE } from './window/shop.ts';
import { SIGNOFF_DE } from './window/signoff.ts';
import { STREAMS_DE } from './window/streams.ts';

/** Key to template of the window's own wording. */
export const WINDOW_DE = {
  ...ACTS_DE,
  ...BAY_SCREEN_DE,
  ...DATUM_DE,
  ...FIRST_RUN_DE,
  ...HISTORY_DE,
  ...HOME_DE,
  ...JOB_DE,
  ...MARKS_DE,
  ...PHOTOS_DE,
  ...PLACEMENT_DE,
  ...READINGS_DE,
  ...REHEARSAL_DE,
  ...SENSORS_DE,
  ...SETTINGS_DE,
  ...SHOP_DE,
  ...PROCEDURE_FORM_DE,
  ...PROCEDURE_REVIEW_DE,
  ...SIGNOFF_DE,
  ...STREAMS_DE,
} as const;
