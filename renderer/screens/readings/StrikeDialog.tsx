/** Withdraws a reading: one of five reasons, or words. The reading stays in the journal. */
import { type ReactNode, useState } from 'react';
import { say } from '../../../core/words/index.ts';
import { Button } from '../../ui/Button.tsx';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { Dialog } from '../../ui/Dialog.tsx';
import { HoldButton } from '../../ui/HoldButton.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';

const REASONS = ['typingSlip', 'wrongPoint', 'instrumentMoved', 'carOrFixtureMoved', 'readAgain'] as const;

export function StrikeDialog({
  open,
  value,
  onClose,
  onStrike,
}: {
  readonly open: boolean;
  readonly value: string;
  readonly onClose: () => void;
  readonly onStrike: (reason: string, words: string) => void;
}): ReactNode {
  const [reason, setReason] = useState<string | undefined>(undefined);
  const [words, setWords] = useState('');
  const chosen = words.trim() === '' ? reason : 'other';
  return (
    <Dialog title={say('strike.title', { value })} open={open} onClose={onClose}>
      <p>{say('strike.stays')}</p>
      <ChoiceButtons
        label={say('strike.reason')}
        items={REASONS.map((each) => ({ value: each, text: say(`strike.${each}`) }))}
        chosen={chosen === undefined ? [] : [chosen]}
        onChoose={([each]) => {
          setWords('');
          setReason(each);
        }}
      />
      <TextEntry label={say('strike.words')} value={words} mark="none" onChange={setWords} />
      <div className="dialog-buttons">
        <Button weight="quiet" onPress={onClose}>
          {say('act.cancel')}
        </Button>
        <HoldButton
          disabled={chosen === undefined}
          testId="strike-now"
          onHeld={() => onStrike(chosen ?? 'other', words.trim())}
        >
          {say('act.strikeHold')}
        </HoldButton>
      </div>
    </Dialog>
  );
}
