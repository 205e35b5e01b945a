/**
 * A button that acts after it was held for one second: signing, striking, closing. Held by pointer, or by Space or
 * Enter; let go early and nothing happens.
 */
import { type KeyboardEvent, type ReactNode, useEffect, useRef, useState } from 'react';
import { say } from '../../core/words/index.ts';

/** How long the press must last, ms. */
export const HOLD_MS = 1000;

interface HoldButtonProps {
  readonly children: ReactNode;
  readonly disabled?: boolean;
  readonly testId?: string;
  readonly onHeld: () => void;
}

export function HoldButton({ children, disabled = false, testId, onHeld }: HoldButtonProps): ReactNode {
  const [holding, setHolding] = useState(false);
  const timer = useRef<number | undefined>(undefined);
  const heldBy = useRef<'pointer' | 'key'>('pointer');

  const release = (): void => {
    window.clearTimeout(timer.current);
    timer.current = undefined;
    setHolding(false);
  };
  const press = (by: 'pointer' | 'key'): void => {
    if (disabled || timer.current !== undefined) return;
    heldBy.current = by;
    setHolding(true);
    timer.current = window.setTimeout(() => {
      release();
      onHeld();
    }, HOLD_MS);
  };
  useEffect(() => () => window.clearTimeout(timer.current), []);

  const isHoldKey = (event: KeyboardEvent): boolean => event.key === ' ' || event.key === 'Enter';
  return (
    <button
      type="button"
      className="button button-main hold"
      disabled={disabled}
      data-holding={holding || undefined}
      data-disabled={disabled || undefined}
      data-testid={testId}
      onPointerDown={() => press('pointer')}
      onPointerUp={release}
      onPointerLeave={release}
      onPointerCancel={release}
      onBlur={() => {
        // A list that closes takes the focus a moment later: a finger on the button is still there.
        if (heldBy.current === 'key') release();
      }}
      onContextMenu={(event) => event.preventDefault()}
      onKeyDown={(event) => {
        if (!isHoldKey(event)) return;
        event.preventDefault();
        if (!event.repeat) press('key');
      }}
      onKeyUp={(event) => {
        if (isHoldKey(event)) release();
      }}
    >
      <span className="hold-fill" />
      <span className="hold-label">
        {children}
        <span className="visually-hidden"> {say('act.holdOneSecond')}</span>
      </span>
    </button>
  );
}
