/** English wording of the window itself: buttons, marks, empty and waiting states, lists, dialogs; a file a screen. */
import { ACTS } from './window/acts.ts';
import { BAY_SCREEN } from './window/bay.ts';
import { DATUM } from './window/datum.ts';
import { FIRST_RUN } from './window/firstRun.ts';
import { HISTORY } from './window/history.ts';
import { HOME } from './window/home.ts';
import { JOB } from './window/job.ts';
import { MARKS } from './window/marks.ts';
import { PHOTOS } from './window/photos.ts';
import { PLACEMENT } from './window/placement.ts';
import { PROCEDURE_FORM } from './window/procedureForm.ts';
import { PROCEDURE_REVIEW } from './window/procedureReview.ts';
import { READINGS } from './window/readings.ts';
import { REHEARSAL } from './window/rehearsal.ts';
import { SENSORS } from './window/sensors.ts';
import { SETTINGS } from './window/settings.ts';
import { SHOP } from './window/shop.ts';
import { SIGNOFF } from './window/signoff.ts';
import { STREAMS } from './window/streams.ts';

/** Key to template of the window's own wording. */
export const WINDOW_WORDS = {
  ...ACTS,
  ...BAY_SCREEN,
  ...MARKS,
  ...FIRST_RUN,
  ...HOME,
  ...JOB,
  ...SENSORS,
  ...READINGS,
  ...REHEARSAL,
  ...DATUM,
  ...PHOTOS,
  ...PLACEMENT,
  ...SIGNOFF,
  ...SETTINGS,
  ...SHOP,
  ...STREAMS,
  ...PROCEDURE_FORM,
  ...PROCEDURE_REVIEW,
  ...HISTORY,
} as const;
