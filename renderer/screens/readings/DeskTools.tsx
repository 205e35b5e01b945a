/** How a desk is shown: from across the bay, with keys for a gloved hand. */
import type { ReactNode } from 'react';
import type { StageId } from '../../../core/job/stages/index.ts';
import { say } from '../../../core/words/index.ts';
import { switchAnnouncer, useAnnouncerState } from '../../announcer/useAnnouncer.ts';
import { openFarWindow } from '../../state/farMirror.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';

export function DeskTools({
  stage,
  keys,
}: {
  readonly stage: StageId;
  /** Whether there is anything to type. */
  readonly keys: boolean;
}): ReactNode {
  const actions = useActions();
  const keypad = useWindow((state) => state.keypad);
  const announcing = useAnnouncerState((state) => state.on);
  const far = stage === 'placement' || stage === 'stations';
  return (
    <>
      {keys ? (
        <Button
          icon="keypad"
          weight="quiet"
          pressed={keypad}
          keepsFocus
          onPress={() => actions.putKeypad(!keypad)}
          testId="keypad-open"
        >
          {say('keypad.open')}
        </Button>
      ) : null}
      <Button
        icon="speak"
        weight="quiet"
        pressed={announcing}
        keepsFocus
        onPress={() => switchAnnouncer(!announcing)}
        testId="announcer"
      >
        {say('announcer.open')}
      </Button>
      {far ? (
        <Button
          icon="far"
          weight="quiet"
          shortcut="F8"
          keepsFocus
          onPress={() => actions.coverWith('distance')}
          testId="distance-open"
        >
          {say('distance.open')}
        </Button>
      ) : null}
      {far ? (
        <Button icon="second" weight="quiet" keepsFocus onPress={openFarWindow} testId="distance-second">
          {say('distance.second')}
        </Button>
      ) : null}
    </>
  );
}
