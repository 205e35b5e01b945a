/** The place of one part of the bay: what is drawn large, and beside it which part is in sight and what is entered. */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';

/** The parts of the stage, in the order in which they are gone through. */
export const BAY_PARTS = ['floor', 'survey', 'space', 'light', 'due'] as const;
export type BayPartName = (typeof BAY_PARTS)[number];

export function BayTabs({
  part,
  onPart,
}: {
  readonly part: BayPartName;
  readonly onPart: (part: BayPartName) => void;
}): ReactNode {
  return (
    <ChoiceButtons
      label={say('bay.parts')}
      testId="bay-parts"
      items={BAY_PARTS.map((each) => ({ value: each, text: say(`bay.part.${each}`) }))}
      chosen={[part]}
      onChoose={([chosen]) => {
        const next = BAY_PARTS.find((each) => each === chosen);
        if (next !== undefined) onPart(next);
      }}
    />
  );
}

export function BayPart({
  tabs,
  main,
  children,
}: {
  readonly tabs: ReactNode;
  readonly main: ReactNode;
  readonly children: ReactNode;
}): ReactNode {
  return (
    <div className="desk desk-bay">
      <div className="desk-main">{main}</div>
      <div className="desk-side">
        <div className="desk-scroll">
          {tabs}
          {children}
        </div>
      </div>
    </div>
  );
}
