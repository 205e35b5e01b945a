// A quick sheet as a person types it, for the tests about drafts.
import { withListed } from '../../../renderer/state/conditionList.ts';
import { emptyDraft, type ProcedureDraft } from '../../../renderer/state/procedureDraft.ts';
import type { DraftContext } from '../../../renderer/state/procedureOfDraft.ts';
import { withToleranceKind } from '../../../renderer/text/procedureWords.ts';

export const context: DraftContext = {
  enteredBy: 'Mira Sandbank',
  today: '2026-11-25',
  taken: ['petrel-front-camera'],
  edition: 1,
};

const empty = emptyDraft('forwardCamera', '2026-11-25', 'Station 1');

function typedStations(): ProcedureDraft['stations'] {
  return empty.stations.map((station) => {
    const placed = {
      ...station,
      ahead: { ...station.ahead, value: '1500 mm' },
      left: { ...station.left, value: '-20 mm' },
      up: { ...station.up, value: '53 1/8 in' },
    };
    const limited = withToleranceKind(placed, 'ahead', 'twoSided');
    return { ...limited, ahead: { ...limited.ahead, tolerance: { kind: 'twoSided', limit: '10 mm' } } };
  });
}

/** Everything a quick sheet asks for. */
export const typed: ProcedureDraft = {
  ...empty,
  make: 'Tidewell',
  models: 'Petrel, Tern',
  fromYear: '2024',
  document: 'Tidewell workshop sheet PT-70 (invented)',
  section: '4.1',
  target: { kind: 'board', name: 'Pattern board', width: '1180', height: '84 cm' },
  stations: typedStations(),
  conditions: withListed([], ['doorsShut', 'tyrePressures']),
};
