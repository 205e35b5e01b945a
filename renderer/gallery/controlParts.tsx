/** Buttons, choices, keys and icons. States that only a pointer or a finger makes are drawn by their own marks. */
import { type ReactNode, useState } from 'react';
import type { Language } from '../../core/words/index.ts';
import { Button } from '../ui/Button.tsx';
import { ChoiceButtons } from '../ui/ChoiceButtons.tsx';
import { HoldButton } from '../ui/HoldButton.tsx';
import { ICON_NAMES, Icon, ProductMark } from '../ui/Icon.tsx';
import { Keypad } from '../ui/Keypad.tsx';
import { LanguageChoice } from '../ui/LanguageChoice.tsx';
import { Line, Part } from './Part.tsx';

const nothing = (): void => undefined;
const WEIGHTS = ['main', 'plain', 'quiet'] as const;
const TOUCHED = ['hovered', 'pressed', 'focus-visible'] as const;

export function ButtonsPart(): ReactNode {
  return (
    <Part title="Button">
      {WEIGHTS.map((weight) => (
        <Line key={weight}>
          <Button weight={weight}>{weight}</Button>
          <Button weight={weight} icon="done">
            with its icon
          </Button>
          <Button weight={weight} disabled>
            disabled
          </Button>
          {TOUCHED.map((state) => (
            <button
              key={state}
              type="button"
              className={`button button-${weight}`}
              {...{ [`data-${state}`]: '' }}
            >
              {state}
            </button>
          ))}
        </Line>
      ))}
      <Line>
        <Button icon="keypad" pressed>
          stays in
        </Button>
        <Button icon="lock" shortcut="F9">
          with its key
        </Button>
      </Line>
    </Part>
  );
}

export function LanguagesPart(): ReactNode {
  const [language, setLanguage] = useState<Language>('en');
  return (
    <Part title="Languages">
      <LanguageChoice label="Languages" testId="languages" chosen={language} onChoose={setLanguage} />
    </Part>
  );
}

export function HoldPart(): ReactNode {
  return (
    <Part title="Hold button">
      <Line>
        <HoldButton onHeld={nothing}>Hold to sign</HoldButton>
        <HoldButton disabled onHeld={nothing}>
          Hold to sign
        </HoldButton>
        <button type="button" className="button button-main hold" data-holding="true">
          <span className="hold-fill" />
          <span className="hold-label">being held</span>
        </button>
      </Line>
    </Part>
  );
}

const ANSWERS = [
  { value: 'yes', text: 'Yes' },
  { value: 'no', text: 'No', stops: true },
  { value: 'long', text: 'asked for, not done' },
] as const;

function Choices({
  chosen,
  many,
}: {
  readonly chosen: readonly string[];
  readonly many: boolean;
}): ReactNode {
  const [now, setNow] = useState(chosen);
  const label = `${many ? 'several' : 'one'} of a few, ${chosen.join(' and ') || 'none'} chosen`;
  return <ChoiceButtons label={label} items={ANSWERS} many={many} chosen={now} onChoose={setNow} />;
}

export function ChoicesPart(): ReactNode {
  return (
    <Part title="Choice buttons">
      <Choices chosen={[]} many={false} />
      <Choices chosen={['yes']} many={false} />
      <Choices chosen={['no']} many={false} />
      <Choices chosen={['yes', 'long']} many />
    </Part>
  );
}

export function KeypadPart(): ReactNode {
  const [text, setText] = useState('');
  return (
    <Part title="Keypad">
      <Line>
        <div className="gallery-side">
          <Keypad text={text} onText={setText} onEnter={nothing} />
        </div>
        <div className="gallery-side">
          <Keypad fractions text={text} onText={setText} onEnter={nothing} />
        </div>
      </Line>
      <p className="quiet">{text === '' ? 'nothing typed' : text}</p>
    </Part>
  );
}

export function IconsPart(): ReactNode {
  return (
    <Part title="Icons">
      <Line>
        <span className="gallery-icon">
          <ProductMark size={40} />
          mark
        </span>
        {ICON_NAMES.map((name) => (
          <span key={name} className="gallery-icon">
            <Icon name={name} />
            {name}
          </span>
        ))}
      </Line>
    </Part>
  );
}
