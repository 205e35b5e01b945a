/** The languages side by side, each by its own name: whoever reads only one of them finds it. */
import type { ReactNode } from 'react';
import { LANGUAGE_NAMES, LANGUAGES, type Language } from '../../core/words/index.ts';
import { ChoiceButtons } from './ChoiceButtons.tsx';

interface LanguageChoiceProps {
  readonly label: string;
  readonly testId: string;
  readonly chosen: Language;
  readonly onChoose: (language: Language) => void;
}

export function LanguageChoice({ label, testId, chosen, onChoose }: LanguageChoiceProps): ReactNode {
  return (
    <ChoiceButtons
      label={label}
      testId={testId}
      items={LANGUAGES.map((value) => ({ value, text: LANGUAGE_NAMES[value] }))}
      chosen={[chosen]}
      onChoose={([value]) => onChoose(LANGUAGES.find((each) => each === value) ?? chosen)}
    />
  );
}
