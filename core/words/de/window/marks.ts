/** States of an entry and marks on fields. */
import type { MARKS } from '../../window/marks.ts';

export const MARKS_DE = {
  'mark.typing': 'getippt',
  'mark.sent': 'gesendet',
  'mark.recorded': 'erfasst',
  'mark.restored': 'getippt, nicht erfasst',
  'mark.refused': 'nicht erfasst',
  'overall.recorded': 'alles erfasst',
  'overall.typing': '{count} getippt, nicht erfasst',
  'overall.sent': '{count} gesendet',
  'overall.waiting': 'wartet auf Aufzeichnung',
  'service.away': 'Der aufzeichnende Teil wird neu gestartet. Weitertippen: Nichts geht verloren.',
  'stageState.empty': 'offen',
  'stageState.underWay': 'in Arbeit',
  'stageState.done': 'fertig',
  'stageState.notNeeded': 'nicht nötig',
  'stageState.stops': 'zu beachten',
  'slot.missing': 'zu messen',
  'slot.recorded': 'erfasst',
  'slot.earlier': 'neu zu messen',
  'slot.optional': 'falls die Vorgabe es braucht',
  'slot.suspect': 'passt nicht',
} as const satisfies Record<keyof typeof MARKS, string>;
