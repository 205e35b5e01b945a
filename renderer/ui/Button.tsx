/** One button, three weights: the main act of a place, an ordinary one, a quiet one. */
import type { ReactNode } from 'react';
import { Button as AriaButton } from 'react-aria-components';
import { Icon, type IconName } from './Icon.tsx';

export interface ButtonProps {
  readonly children?: ReactNode;
  readonly icon?: IconName;
  readonly weight?: 'main' | 'plain' | 'quiet';
  readonly label?: string;
  readonly disabled?: boolean;
  readonly autoFocus?: boolean;
  readonly className?: string;
  readonly testId?: string;
  /** A button that stays in or out. */
  readonly pressed?: boolean;
  /** The key that does the same, shown beside the words. */
  readonly shortcut?: string;
  /** The focus stays where it is when this is pressed: a tool beside a field that is being written. */
  readonly keepsFocus?: boolean;
  readonly type?: 'button' | 'submit';
  readonly onPress?: () => void;
}

export function Button(props: ButtonProps): ReactNode {
  const { children, icon, weight = 'plain', label, disabled = false, className = '', testId } = props;
  return (
    <AriaButton
      className={`button button-${weight} ${className}`}
      isDisabled={disabled}
      type={props.type ?? 'button'}
      {...(label === undefined ? {} : { 'aria-label': label })}
      {...(testId === undefined ? {} : { 'data-testid': testId })}
      {...(props.keepsFocus === true ? { preventFocusOnPress: true } : {})}
      {...(props.pressed === undefined ? {} : { 'aria-pressed': props.pressed })}
      {...(props.shortcut === undefined ? {} : { 'aria-keyshortcuts': props.shortcut })}
      {...(props.autoFocus === true ? { autoFocus: true } : {})}
      {...(props.onPress === undefined ? {} : { onPress: props.onPress })}
    >
      {icon === undefined ? null : <Icon name={icon} />}
      {children}
      {props.shortcut === undefined ? null : <kbd className="key-hint">{props.shortcut}</kbd>}
    </AriaButton>
  );
}
