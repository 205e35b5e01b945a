/** One of a few, or several of a few, all of them in sight: a tap chooses, arrow keys move, Space chooses. */
import type { ReactNode } from 'react';
import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';

export interface ChoiceItem {
  readonly value: string;
  readonly text: string;
  /** Choosing it stops the work. */
  readonly stops?: boolean;
}

interface ChoiceButtonsProps {
  readonly label: string;
  readonly items: readonly ChoiceItem[];
  readonly chosen: readonly string[];
  readonly many?: boolean;
  readonly testId?: string;
  readonly onChoose: (values: readonly string[]) => void;
}

export function ChoiceButtons(props: ChoiceButtonsProps): ReactNode {
  const { label, items, chosen, many = false, testId, onChoose } = props;
  return (
    <ToggleButtonGroup
      aria-label={label}
      className={many ? 'choices choices-many' : 'choices'}
      selectionMode={many ? 'multiple' : 'single'}
      disallowEmptySelection={!many}
      selectedKeys={chosen}
      onSelectionChange={(keys) => onChoose(items.map((item) => item.value).filter((each) => keys.has(each)))}
      {...(testId === undefined ? {} : { 'data-testid': testId })}
    >
      {items.map((item) => (
        <ToggleButton
          key={item.value}
          id={item.value}
          className="choice"
          data-value={item.value}
          {...(item.stops === true ? { 'data-stops': true } : {})}
        >
          {item.text}
        </ToggleButton>
      ))}
    </ToggleButtonGroup>
  );
}
