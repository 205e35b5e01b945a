/** A question beside a field, with cures that one tap takes. The typed text stays until the person decides. */
import type { ReactNode } from 'react';
import type { Cure, EntryQuestion, EntryRefusal } from '../../../core/entry/index.ts';
import { say } from '../../../core/words/index.ts';
import { Button } from '../../ui/Button.tsx';

export function Question({
  question,
  valueText,
  onCure,
}: {
  readonly question: EntryQuestion;
  readonly valueText: (value: number) => string;
  readonly onCure: (cure: Cure) => void;
}): ReactNode {
  return (
    <div className="question" role="alert" data-testid="question">
      <span className="question-text">{say(question.key)}</span>
      {question.cures.map((cure) => (
        <Button key={`${cure.key} ${cure.value}`} onPress={() => onCure(cure)}>
          {cure.key === 'cure.exchange' ? say(cure.key) : say(cure.key, { value: valueText(cure.value) })}
        </Button>
      ))}
    </div>
  );
}

export function Refusal({
  refusal,
  onSuggestion,
}: {
  readonly refusal: EntryRefusal;
  readonly onSuggestion: (text: string) => void;
}): ReactNode {
  return (
    <div className="question" role="alert" data-testid="refusal">
      <span className="question-text">{say(refusal.key, refusal.values)}</span>
      {refusal.suggestions.map((text) => (
        <Button key={text} onPress={() => onSuggestion(text)}>
          {say('act.take', { value: text })}
        </Button>
      ))}
    </div>
  );
}
