/**
 * Keys for a number, for a gloved hand: at least 18 mm each way. They never take the focus, so that the field being
 * written keeps it and a keyboard goes on working beside them.
 */
import type { MouseEvent, ReactNode } from 'react';
import { say } from '../../core/words/index.ts';
import { Icon } from './Icon.tsx';

const DIGITS = ['7', '8', '9', '4', '5', '6', '1', '2', '3'] as const;

/** What inches need besides: whole and fraction apart, and the stroke between. */
const FRACTION = [
  { text: ' ', label: 'keypad.space', face: '\u2423' },
  { text: '/', label: 'keypad.stroke', face: '/' },
] as const;

interface KeypadProps {
  readonly text: string;
  /** True where fractions of an inch are read. */
  readonly fractions?: boolean;
  readonly onText: (text: string) => void;
  readonly onEnter: () => void;
}

const keepFocus = (event: MouseEvent): void => event.preventDefault();

function Key({
  label,
  className = '',
  testId,
  onPress,
  children,
}: {
  readonly label?: string;
  readonly className?: string;
  readonly testId: string;
  readonly onPress: () => void;
  readonly children: ReactNode;
}): ReactNode {
  return (
    <button
      type="button"
      tabIndex={-1}
      className={`key ${className}`}
      data-testid={testId}
      onMouseDown={keepFocus}
      onClick={onPress}
      {...(label === undefined ? {} : { 'aria-label': label })}
    >
      {children}
    </button>
  );
}

export function Keypad({ text, fractions = false, onText, onEnter }: KeypadProps): ReactNode {
  const digit = (each: string): ReactNode => (
    <Key key={each} testId={`key-${each}`} onPress={() => onText(text + each)}>
      {each}
    </Key>
  );
  return (
    <fieldset className="keypad" aria-label={say('keypad.label')} data-testid="keypad">
      {DIGITS.map(digit)}
      <Key testId="key-decimal" label={say('keypad.decimal')} onPress={() => onText(`${text},`)}>
        ,
      </Key>
      {digit('0')}
      <Key testId="key-erase" label={say('keypad.erase')} onPress={() => onText(text.slice(0, -1))}>
        <Icon name="erase" />
      </Key>
      {fractions
        ? FRACTION.map((each) => (
            <Key
              key={each.text}
              testId={`key-${each.label}`}
              label={say(each.label)}
              onPress={() => onText(text + each.text)}
            >
              {each.face}
            </Key>
          ))
        : null}
      <Key className="key-enter" testId="key-enter" onPress={onEnter}>
        <Icon name="enter" />
        {say('act.enter')}
      </Key>
    </fieldset>
  );
}
