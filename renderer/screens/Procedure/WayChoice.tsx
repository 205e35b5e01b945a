/** Which of two ways a size goes, in words, so that nobody types a sign. */
import type { ReactNode } from 'react';
import { SelectList } from '../../ui/SelectList.tsx';

export function WayChoice({
  label,
  along,
  against,
  isAgainst,
  testId,
  onChoose,
}: {
  readonly label: string;
  readonly along: string;
  readonly against: string;
  readonly isAgainst: boolean;
  readonly testId: string;
  readonly onChoose: (against: boolean) => void;
}): ReactNode {
  return (
    <SelectList
      label={label}
      hideLabel
      placeholder={along}
      testId={testId}
      chosen={isAgainst ? 'against' : 'along'}
      items={[
        { value: 'along', text: along },
        { value: 'against', text: against },
      ]}
      onChoose={(value) => onChoose(value === 'against')}
    />
  );
}
