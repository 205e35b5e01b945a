/** The bay's outline and what stands in it: kept with the shop, for every job in this bay. */
import { type ReactNode, useState } from 'react';
import type { Room } from '../../../core/job/room.ts';
import { say } from '../../../core/words/index.ts';
import type { CallError } from '../../state/ports.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { focusNext } from '../fields/focusNext.ts';
import { LengthEntry, lengthOfText } from './LengthEntry.tsx';

const SIDES = ['fromAlong', 'toAlong', 'fromAcross', 'toAcross', 'fromHeight', 'toHeight'] as const;
type Texts = Readonly<Record<string, string>>;

/** A rectangle from its two sides; undefined while a number is missing or a side is turned about. */
export function rectangle(
  [fromX, toX]: readonly [number | undefined, number | undefined],
  [fromY, toY]: readonly [number | undefined, number | undefined],
): [number, number][] | undefined {
  if (fromX === undefined || toX === undefined || fromY === undefined || toY === undefined) return undefined;
  if (!(fromX < toX && fromY < toY)) return undefined;
  return [
    [fromX, fromY],
    [toX, fromY],
    [toX, toY],
    [fromX, toY],
  ];
}

export function RoomForm({ bay, room }: { readonly bay: string; readonly room: Room }): ReactNode {
  const actions = useActions();
  const [texts, setTexts] = useState<Texts>({});
  const [wrong, setWrong] = useState<'outline' | 'obstacle' | null>(null);
  const [error, setError] = useState<CallError | null>(null);
  const text = (name: string): string => texts[name] ?? '';
  const number = (name: string): number | undefined => lengthOfText(text(name));
  const put = (name: string) => (value: string) => {
    setTexts({ ...texts, [name]: value });
    setWrong(null);
  };
  const record = async (next: Room): Promise<void> => {
    const failure = await actions.recordBay(bay, next);
    setError(failure);
    if (failure === null) setTexts({});
  };
  const draw = (): void => {
    const outline = rectangle([0, number('length')], [0, number('width')]);
    if (outline === undefined) setWrong('outline');
    else void record({ ...room, outline });
  };
  const add = (): void => {
    const outline = rectangle(
      [number('fromAlong'), number('toAlong')],
      [number('fromAcross'), number('toAcross')],
    );
    const [fromMm, toMm] = [number('fromHeight'), number('toHeight')];
    const name = text('name').trim();
    if (
      outline === undefined ||
      fromMm === undefined ||
      toMm === undefined ||
      fromMm >= toMm ||
      name === ''
    ) {
      setWrong('obstacle');
      return;
    }
    void record({ ...room, obstacles: [...room.obstacles, { name, outline, fromMm, toMm }] });
  };
  return (
    <>
      <section className="sheet" data-form="room">
        <h2 className="overline">{say('bay.space.outline')}</h2>
        <LengthEntry
          label={say('bay.space.length')}
          name="room.length"
          text={text('length')}
          onText={put('length')}
        />
        <LengthEntry
          label={say('bay.space.width')}
          name="room.width"
          text={text('width')}
          onText={put('width')}
        />
        {wrong === 'outline' ? <p className="question">{say('bay.survey.wrong')}</p> : null}
        <Button onPress={draw} testId="draw-room">
          {say('bay.space.draw')}
        </Button>
      </section>
      <section className="sheet" data-form="obstacle">
        <h2 className="overline">{say('bay.space.addObstacle')}</h2>
        {room.obstacles.map((each) => (
          <Button
            key={each.name}
            weight="quiet"
            icon="close"
            onPress={() =>
              void record({ ...room, obstacles: room.obstacles.filter((other) => other.name !== each.name) })
            }
          >
            {say('bay.space.remove', { name: each.name })}
          </Button>
        ))}
        <TextEntry
          label={say('bay.space.name')}
          fieldKey="room.name"
          value={text('name')}
          mark="none"
          onChange={put('name')}
          onEnter={() => focusNext(document.activeElement)}
        />
        {SIDES.map((name) => (
          <LengthEntry
            key={name}
            label={say(`bay.space.${name}`)}
            name={`room.${name}`}
            text={text(name)}
            onText={put(name)}
          />
        ))}
        {wrong === 'obstacle' ? <p className="question">{say('bay.survey.wrong')}</p> : null}
        <Button onPress={add} testId="add-obstacle">
          {say('act.add')}
        </Button>
      </section>
      {error === null ? null : <ErrorNotice error={error} />}
    </>
  );
}
