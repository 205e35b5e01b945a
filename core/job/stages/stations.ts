/** Stations: the target at each required place, proven, then captured on the maker's scan tool. */
import type { Stage } from './stage.ts';

export const stations: Stage = {
  id: 'stations',
  title: 'stage.stations.title',
  purpose: 'stage.stations.purpose',
  cautions: ['caution.captureMaker'],
  readings: true,
  appliesTo: ['staticHere'],
  fields: [
    {
      id: 'stations.conditionsHold',
      kind: 'confirm',
      label: 'field.stations.conditionsHold',
      per: 'station',
      need: 'always',
      stops: ['no'],
      printed: 'conditions',
    },
  ],
};
