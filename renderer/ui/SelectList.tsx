/** One of many: a button that opens a list. For few choices use `ChoiceButtons`, which keeps all in sight. */
import type { ReactNode } from 'react';
import {
  Button as AriaButton,
  Label,
  ListBox,
  ListBoxItem,
  Popover,
  Select,
  SelectValue,
} from 'react-aria-components';
import { Icon } from './Icon.tsx';

export interface SelectItem {
  readonly value: string;
  readonly text: string;
  readonly note?: string;
}

export function SelectList(props: {
  readonly label: string;
  readonly items: readonly SelectItem[];
  readonly chosen: string | null;
  readonly placeholder: string;
  readonly hideLabel?: boolean;
  readonly testId?: string;
  readonly onChoose: (value: string) => void;
}): ReactNode {
  const { label, items, chosen, placeholder, testId, onChoose } = props;
  return (
    <Select
      className="field"
      selectedKey={chosen}
      placeholder={placeholder}
      onSelectionChange={(key) => {
        if (key !== null) onChoose(String(key));
      }}
      {...(testId === undefined ? {} : { 'data-testid': testId })}
    >
      <Label className={props.hideLabel === true ? 'visually-hidden' : 'field-label'}>{label}</Label>
      <AriaButton className="button select-button">
        <SelectValue>
          {({ isPlaceholder }) =>
            isPlaceholder ? placeholder : items.find((each) => each.value === chosen)?.text
          }
        </SelectValue>
        <Icon name="down" />
      </AriaButton>
      <Popover className="popover">
        <ListBox>
          {items.map((item) => (
            <ListBoxItem key={item.value} id={item.value} textValue={item.text} className="option">
              <span>{item.text}</span>
              {item.note === undefined ? null : <span className="quiet">{item.note}</span>}
            </ListBoxItem>
          ))}
        </ListBox>
      </Popover>
    </Select>
  );
}
