/** Placement: the fixture to its required pose, read and proven. */
import type { Stage } from './stage.ts';

export const placement: Stage = {
  id: 'placement',
  title: 'stage.placement.title',
  purpose: 'stage.placement.purpose',
  cautions: ['caution.movingFixture'],
  readings: true,
  appliesTo: ['staticHere'],
  fields: [
    {
      id: 'placement.markedEnd',
      kind: 'text',
      label: 'field.placement.markedEnd',
      hint: 'field.placement.markedEnd.hint',
      per: 'sensor',
      need: 'always',
      printed: 'conditions',
    },
  ],
};
