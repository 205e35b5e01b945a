/** Sign-off: what is missing, what the certificate will say, and the one held press that signs. */
import { choicesOf, type Stage } from './stage.ts';

export const signoff: Stage = {
  id: 'signoff',
  title: 'stage.signoff.title',
  purpose: 'stage.signoff.purpose',
  cautions: ['caution.limit'],
  readings: false,
  appliesTo: [],
  fields: [
    {
      id: 'signoff.withinReason',
      kind: 'choice',
      label: 'field.signoff.withinReason',
      hint: 'field.signoff.withinReason.hint',
      per: 'job',
      need: 'optional',
      choices: choicesOf('signoff.withinReason', ['bestReachable', 'makerAllows', 'captureAgrees']),
      printed: 'outcome',
    },
    {
      id: 'signoff.stopReason',
      kind: 'choice',
      label: 'field.signoff.stopReason',
      per: 'job',
      need: 'optional',
      choices: choicesOf('signoff.stopReason', [
        'preCheckFailed',
        'placementNotShown',
        'routineFailed',
        'codesStay',
        'refusedByCustomer',
        'partsMissing',
        'unfitBay',
        'timeRanOut',
      ]),
      printed: 'outcome',
    },
    {
      id: 'signoff.stopWords',
      kind: 'personal',
      label: 'field.signoff.stopWords',
      per: 'job',
      need: 'optional',
      printed: 'outcome',
    },
  ],
};
