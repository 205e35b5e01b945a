/** The staff's reading at one place of the grid: one large field, Enter records it and the next place opens. */
import { type ReactNode, useState } from 'react';
import { parseQuantity } from '../../../core/entry/index.ts';
import {
  type GridPlace,
  type RoomSurvey,
  readAt,
  type SurveyedPlace,
  walkingOrder,
} from '../../../core/job/room.ts';
import { formatFixed, formatLength } from '../../../core/units.ts';
import { say } from '../../../core/words/index.ts';
import { useWindow } from '../../state/windowContext.tsx';
import { sayKey } from '../../text/sayKey.ts';
import { Button } from '../../ui/Button.tsx';
import { Keypad } from '../../ui/Keypad.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { doubtfulJump } from './surveyForm.ts';

export function PlaceEntry({
  survey,
  place,
  sending,
  onRead,
}: {
  readonly survey: RoomSurvey;
  readonly place: GridPlace;
  readonly sending: boolean;
  readonly onRead: (read: SurveyedPlace) => void;
}): ReactNode {
  const keypad = useWindow((state) => state.keypad);
  const [text, setText] = useState('');
  const [trouble, setTrouble] = useState('');
  const [asked, setAsked] = useState('');
  const order = walkingOrder(survey);
  const number = order.findIndex((each) => each.column === place.column && each.row === place.row) + 1;
  const { column, row } = place;
  const before = readAt(survey, place);
  const put = (next: string): void => {
    setText(next);
    setTrouble('');
  };
  const done = (staffMm: number | null): void => {
    onRead({ column, row, staffMm, text: staffMm === null ? '' : text });
    setText('');
    setTrouble('');
    setAsked('');
  };
  const enter = (): void => {
    if (sending || text.trim() === '') return;
    const read = parseQuantity(text, { kind: 'length', numbersIn: 'mm' });
    if (!read.ok) {
      setTrouble(sayKey(read.error.key, read.error.values));
      return;
    }
    const jump = doubtfulJump(survey, place, read.value.value);
    if (jump !== undefined && asked !== text) {
      setAsked(text);
      setTrouble(say('bay.survey.far', { amount: formatLength(jump, 1, 'mm') }));
      return;
    }
    done(read.value.value);
  };
  return (
    <section className="sheet" data-testid="survey-place">
      <h2 className="overline">
        {say('bay.survey.placeOf', { number: String(number), count: String(order.length) })}
      </h2>
      <TextEntry
        label={say('bay.survey.place', {
          along: formatLength(place.xMm, 0, 'mm'),
          across: formatLength(place.yMm, 0, 'mm'),
        })}
        fieldKey="survey.place"
        value={text}
        mark={sending ? 'sent' : 'none'}
        numeric
        large
        autoFocus
        unit="mm"
        {...(before === undefined
          ? {}
          : { hint: before.staffMm === null ? say('bay.survey.givenUp') : formatFixed(before.staffMm, 1) })}
        onChange={put}
        onEnter={enter}
        below={
          trouble === '' ? null : (
            <p className="question" role="alert">
              {trouble}
            </p>
          )
        }
      />
      {keypad ? <Keypad text={text} onText={put} onEnter={enter} /> : null}
      <Button weight="quiet" keepsFocus onPress={() => done(null)} testId="give-up-place">
        {say('bay.survey.giveUp')}
      </Button>
    </section>
  );
}
