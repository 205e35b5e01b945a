/** Where a survey begins: its grid, until when it stands, and what it is read with. */
import { type ReactNode, useState } from 'react';
import type { RoomSurvey } from '../../../core/job/room.ts';
import { say } from '../../../core/words/index.ts';
import { useWindow } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { SelectList } from '../../ui/SelectList.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { LengthEntry } from './LengthEntry.tsx';
import { gridOf, MOST_LINES, type SurveyTexts, surveyFrom } from './surveyForm.ts';
import { today, yearsLater } from './useBayRoom.ts';

/** Half a millimetre a height and 0.05 mm/m for the level (common practice, no source): to be replaced by the certificate's. */
const FIRST_TEXTS = { length: '', width: '', step: '1000', uHeight: '0.5', uTilt: '0.05' } as const;

export function SurveyStart({
  replaced,
  onStart,
}: {
  readonly replaced: RoomSurvey | null;
  readonly onStart: (survey: RoomSurvey) => void;
}): ReactNode {
  const shop = useWindow((state) => state.status?.shop ?? null);
  const person = useWindow((state) => state.person);
  const levels = (shop?.instruments ?? []).filter((each) => each.kind === 'level');
  const [texts, setTexts] = useState<SurveyTexts>(() => ({
    ...FIRST_TEXTS,
    validUntil: yearsLater(today(), 1),
    instrument: levels[0]?.name ?? '',
  }));
  const [wrong, setWrong] = useState(false);
  const put = (name: keyof SurveyTexts) => (text: string) => {
    setTexts({ ...texts, [name]: text });
    setWrong(false);
  };
  const grid = gridOf(texts);
  const tooMany = grid !== undefined && Math.max(grid.xsMm.length, grid.ysMm.length) > MOST_LINES;
  const start = (): void => {
    const name = shop?.people.find((each) => each.id === person)?.name ?? '';
    const survey = surveyFrom(texts, name, today());
    if (survey === undefined) setWrong(true);
    else onStart(survey);
  };
  const lengths = ['length', 'width', 'step'] as const;
  return (
    <section className="sheet" data-form="survey">
      {lengths.map((name) => (
        <LengthEntry
          key={name}
          label={say(`bay.survey.${name}`)}
          name={`survey.${name}`}
          text={texts[name]}
          onText={put(name)}
        />
      ))}
      {grid === undefined ? null : (
        <p className={tooMany ? 'question' : 'quiet'} data-testid="survey-grid">
          {tooMany
            ? say('bay.survey.tooMany')
            : say('bay.survey.grid', {
                count: String(grid.xsMm.length * grid.ysMm.length),
                columns: String(grid.xsMm.length),
                rows: String(grid.ysMm.length),
              })}
        </p>
      )}
      <SelectList
        label={say('bay.survey.instrument')}
        items={levels.map((each) => ({ value: each.name, text: each.name, note: each.certificate }))}
        chosen={texts.instrument === '' ? null : texts.instrument}
        placeholder={say('act.choose')}
        onChoose={put('instrument')}
      />
      <LengthEntry
        label={say('bay.survey.uHeight')}
        name="survey.uHeight"
        text={texts.uHeight}
        onText={put('uHeight')}
      />
      <LengthEntry
        label={say('bay.survey.uTilt')}
        name="survey.uTilt"
        unit={say('bay.survey.perMetre')}
        text={texts.uTilt}
        onText={put('uTilt')}
      />
      <TextEntry
        label={say('bay.survey.validUntil')}
        hint={say('thing.dayHint')}
        fieldKey="survey.validUntil"
        value={texts.validUntil}
        mark="none"
        onChange={put('validUntil')}
        onEnter={start}
      />
      {replaced === null ? null : (
        <p className="quiet">{say('bay.survey.replaces', { madeOn: replaced.madeOn })}</p>
      )}
      {wrong ? <p className="question">{say('bay.survey.wrong')}</p> : null}
      <Button weight="main" onPress={start} testId="start-survey">
        {say(replaced === null ? 'bay.survey.start' : 'bay.survey.startAgain')}
      </Button>
    </section>
  );
}
