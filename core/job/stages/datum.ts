/** Datum: hub drops and side lines, from which the lines the procedure measures from are solved. */
import type { Stage } from './stage.ts';

export const datum: Stage = {
  id: 'datum',
  title: 'stage.datum.title',
  purpose: 'stage.datum.purpose',
  cautions: ['caution.underCar'],
  readings: true,
  appliesTo: ['staticHere'],
  fields: [
    {
      id: 'datum.frontStraight',
      kind: 'confirm',
      label: 'field.datum.frontStraight',
      per: 'job',
      need: 'always',
      stops: ['no'],
      printed: 'conditions',
    },
    {
      id: 'datum.input',
      kind: 'quantity',
      label: 'field.datum.input',
      per: 'input',
      need: 'always',
      printed: 'conditions',
    },
    {
      id: 'datum.faceHeight',
      kind: 'quantity',
      label: 'field.datum.faceHeight',
      hint: 'field.datum.faceHeight.hint',
      per: 'job',
      need: 'optional',
      printed: 'conditions',
    },
    {
      id: 'datum.toeDocument',
      kind: 'text',
      label: 'field.datum.toeDocument',
      hint: 'field.datum.toeDocument.hint',
      per: 'job',
      need: 'optional',
      printed: 'conditions',
    },
  ],
};
