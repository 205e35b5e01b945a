/** What shows a state: type and tones, entries and their marks, verdicts, bars, messages. */
import { type ReactNode, useState } from 'react';
import type { ToleranceBar, VerdictKind } from '../../core/certificate/document.ts';
import { EntryMark, type Mark } from '../ui/EntryMark.tsx';
import { ErrorNotice, Notice } from '../ui/Notice.tsx';
import { SelectList } from '../ui/SelectList.tsx';
import { TextEntry } from '../ui/TextEntry.tsx';
import { ToleranceBarView } from '../ui/ToleranceBarView.tsx';
import { VerdictMark } from '../ui/VerdictMark.tsx';
import { Line, Part } from './Part.tsx';

const SIZES = ['14', '16', '20', '28', '44'] as const;
const MARKS: readonly Mark[] = ['none', 'typing', 'sent', 'recorded', 'restored', 'refused'];

export function ToneParts(): ReactNode {
  return (
    <Part title="Type and tones">
      {SIZES.map((size) => (
        <p key={size} style={{ fontSize: `var(--text-${size})` }}>
          {size}: 1 443.5 mm <span className="strong">to the car's left</span>
        </p>
      ))}
      <Line>
        <span>ink</span>
        <span style={{ color: 'var(--pencil)' }}>pencil</span>
        <span style={{ color: 'var(--accent)' }}>accent</span>
        <span style={{ color: 'var(--proven)' }}>proven</span>
        <span style={{ color: 'var(--not-proven)' }}>not proven</span>
        <span style={{ color: 'var(--outside)' }}>outside</span>
      </Line>
    </Part>
  );
}

function Entry({
  mark,
  more = {},
}: {
  readonly mark: Mark;
  readonly more?: Partial<Parameters<typeof TextEntry>[0]>;
}) {
  const [value, setValue] = useState(mark === 'none' ? '' : '1443,5');
  return <TextEntry label={`Marked ${mark}`} value={value} mark={mark} onChange={setValue} {...more} />;
}

function List({ chosen, label }: { readonly chosen: string | null; readonly label: string }): ReactNode {
  const [now, setNow] = useState(chosen);
  return (
    <SelectList
      label={label}
      placeholder="Choose"
      chosen={now}
      onChoose={setNow}
      items={[
        { value: 'tape', text: 'Steel tape', note: 'class II' },
        { value: 'rule', text: 'Steel rule' },
      ]}
    />
  );
}

export function EntriesPart(): ReactNode {
  return (
    <Part title="Text entry and list">
      <Line>
        {MARKS.map((mark) => (
          <Entry key={mark} mark={mark} />
        ))}
      </Line>
      <Line>
        <Entry mark="recorded" more={{ label: 'With hint and unit', hint: 'What it is for', unit: 'mm' }} />
        <Entry mark="none" more={{ label: 'Secret', secret: true, value: 'hidden' }} />
      </Line>
      <Entry mark="typing" more={{ label: 'The current reading', large: true, numeric: true, unit: 'mm' }} />
      <Line>
        <List label="Nothing chosen" chosen={null} />
        <List label="Chosen" chosen="tape" />
      </Line>
    </Part>
  );
}

export function MarksPart(): ReactNode {
  return (
    <Part title="Marks and verdicts">
      <Line>
        {MARKS.map((mark) => (
          <EntryMark key={mark} mark={mark} />
        ))}
      </Line>
      <Line>
        <VerdictMark kind="proven" words="proven" note="99.2 %" />
        <VerdictMark kind="notProven" words="within, not proven" />
        <VerdictMark kind="outside" words="outside" />
      </Line>
    </Part>
  );
}

const BARS: readonly (readonly [string, VerdictKind, ToleranceBar])[] = [
  ['proven', 'proven', { lower: -10, upper: 10, found: 1, boxHalfWidth: 3, whiskerHalfWidth: 4 }],
  ['within', 'notProven', { lower: -10, upper: 10, found: 8, boxHalfWidth: 3, whiskerHalfWidth: 4 }],
  ['outside', 'outside', { lower: -10, upper: 10, found: 14, boxHalfWidth: 2 }],
  ['beyond the scale', 'outside', { lower: -10, upper: 10, found: 40, boxHalfWidth: 2 }],
  ['one limit', 'proven', { upper: 10, found: 2, boxHalfWidth: 3 }],
];

export function BarsPart(): ReactNode {
  return (
    <Part title="Tolerance bar">
      {BARS.map(([name, verdict, bar]) => (
        <div key={name} className="gallery-side">
          <span className="quiet">{name}</span>
          <ToleranceBarView bar={bar} verdict={verdict} />
        </div>
      ))}
    </Part>
  );
}

export function NoticesPart(): ReactNode {
  return (
    <Part title="Notice">
      <Notice title="Something to know">
        <p>What it means.</p>
      </Notice>
      <Notice tone="trouble" title="Something is wrong">
        <p>What to do next.</p>
      </Notice>
      <ErrorNotice error={{ code: 'store/readOnly', details: {}, traceId: 'gallery' }} />
      <p className="question">
        <span className="question-text">Is that a decimal sign, or did it only group the digits?</span>
      </p>
    </Part>
  );
}
