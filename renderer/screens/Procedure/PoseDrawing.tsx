/** The required pose on an ordinary car, drawn while it is typed. */
import { type ReactNode, useMemo, useState } from 'react';
import { planScene } from '../../../core/drawing/plan.ts';
import { NOMINAL_FIXTURE } from '../../../core/drawing/planModel.ts';
import { parseQuantity } from '../../../core/entry/index.ts';
import { say } from '../../../core/words/index.ts';
import { SceneSvg } from '../../drawings/SceneSvg.tsx';
import type { ProcedureDraft } from '../../state/procedureDraft.ts';
import { drawnStations } from '../../state/procedureTrial.ts';
import { shownLengthUnit } from '../../text/lengthText.ts';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { useSize } from '../readings/useSize.ts';

/** The board as wide as the target is, where that can be read. */
function boardWidthMm(draft: ProcedureDraft): number {
  const read = parseQuantity(draft.target.width, { kind: 'length' });
  return read.ok && read.value.value > 0 ? read.value.value : NOMINAL_FIXTURE.boardWidthMm;
}

export function PoseDrawing({
  draft,
  trial,
}: {
  readonly draft: ProcedureDraft;
  readonly trial: ReadonlyMap<string, number>;
}): ReactNode {
  const [ref, size] = useSize<HTMLDivElement>();
  const [chosen, setChosen] = useState<string | undefined>(undefined);
  const stations = useMemo(() => drawnStations(draft, trial), [draft, trial]);
  const shown = stations.find((each) => each.id === chosen) ?? stations[0];
  const scene = useMemo(
    () =>
      size === undefined || size.width < 80 || size.height < 80
        ? undefined
        : planScene({
            sheet: { widthPt: size.width, heightPt: size.height },
            textPt: 14,
            view: 'carUp',
            decimalSign: '.',
            unit: shownLengthUnit(),
            fixture: { ...NOMINAL_FIXTURE, boardWidthMm: boardWidthMm(draft) },
            stations,
            recipe: [],
            taken: [],
            medium: 'screen',
            ...(shown === undefined ? {} : { station: shown.id }),
          }),
    [size, stations, shown, draft],
  );
  return (
    <div className="pose-drawing" data-testid="pose-drawing" data-stations={stations.length}>
      {stations.length < 2 ? null : (
        <ChoiceButtons
          label={say('procedurePart.stations')}
          items={stations.map(({ id }) => ({
            value: id,
            text: draft.stations.find((each) => each.id === id)?.name ?? id,
          }))}
          chosen={[shown?.id ?? '']}
          onChoose={([id]) => setChosen(id)}
        />
      )}
      <div className="pose-sheet" ref={ref}>
        {scene === undefined ? null : <SceneSvg scene={scene} />}
      </div>
    </div>
  );
}
