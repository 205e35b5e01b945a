/** Which button of a clicker or foot switch does what: chosen here, then pressed once on the device. */
import { type ReactNode, useEffect, useState } from 'react';
import { say } from '../../../core/words/index.ts';
import { CLICKS, type Click, DEFAULT_KEYS, learned, mayBeClicker } from '../../announcer/clicker.ts';
import { keepClickKeys, useClickKeys } from '../../announcer/useClicker.ts';
import { Button } from '../../ui/Button.tsx';
import { Dialog } from '../../ui/Dialog.tsx';

export function ClickerKeys({ onClose }: { readonly onClose: () => void }): ReactNode {
  const keys = useClickKeys((state) => state.keys);
  const [learning, setLearning] = useState<Click | null>(null);
  const [unfit, setUnfit] = useState(false);
  useEffect(() => {
    if (learning === null) return undefined;
    const hear = (event: KeyboardEvent): void => {
      const leaves = event.key === 'Escape' || event.key === 'Tab';
      const fits = mayBeClicker(event.key);
      if (!leaves) {
        event.preventDefault();
        event.stopPropagation();
        setUnfit(!fits);
        if (fits) keepClickKeys(learned(keys, learning, event.key));
      }
      if (leaves || fits) setLearning(null);
    };
    window.addEventListener('keydown', hear, true);
    return () => window.removeEventListener('keydown', hear, true);
  }, [keys, learning]);
  return (
    <Dialog title={say('clicker.title')} open onClose={onClose}>
      <p>{say('clicker.words')}</p>
      <ul className="clicker-keys">
        {CLICKS.map((click) => (
          <li key={click} data-click={click}>
            <span>{say(`clicker.${click}`)}</span>
            <kbd>{keys[click] === '' ? say('clicker.none') : keys[click]}</kbd>
            <Button onPress={() => setLearning(click)} testId={`learn-${click}`}>
              {say(learning === click ? 'clicker.press' : 'clicker.learn')}
            </Button>
          </li>
        ))}
      </ul>
      {unfit ? <p role="status">{say('clicker.unfit')}</p> : null}
      <div className="dialog-buttons">
        <Button weight="quiet" onPress={() => keepClickKeys(DEFAULT_KEYS)}>
          {say('clicker.default')}
        </Button>
        <Button weight="main" onPress={onClose}>
          {say('act.close')}
        </Button>
      </div>
    </Dialog>
  );
}
