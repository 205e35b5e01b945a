/** The screen while the glass is wiped: nothing takes a touch or a key but one button, held for a second. */
import type { ReactNode } from 'react';
import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { say } from '../../core/words/index.ts';
import { HoldButton } from './HoldButton.tsx';
import { Icon } from './Icon.tsx';

export function WipeLock({
  open,
  onUnlock,
}: {
  readonly open: boolean;
  readonly onUnlock: () => void;
}): ReactNode {
  return (
    <ModalOverlay className="cover" isOpen={open} isDismissable={false} isKeyboardDismissDisabled>
      <Modal className="cover-frame">
        <Dialog className="wipe" data-testid="wipe-lock">
          <Icon name="lock" />
          <Heading slot="title" level={1}>
            {say('wipe.title')}
          </Heading>
          <p>{say('wipe.words')}</p>
          <HoldButton testId="unlock" onHeld={onUnlock}>
            {say('wipe.unlock')}
          </HoldButton>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
