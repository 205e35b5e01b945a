/** One kind of thing of the shop as a list: what tells it from its like, until when it holds, and how to change it. */
import { type ReactNode, useState } from 'react';
import { foundMm, keepsItsLimit } from '../../../core/job/equipmentChecks.ts';
import type { Shop } from '../../../core/job/shop.ts';
import { say } from '../../../core/words/index.ts';
import type { ThingKind } from '../../state/shopForms.ts';
import { lengthText } from '../../text/lengthText.ts';
import { Button } from '../../ui/Button.tsx';
import { instrumentWords } from '../readings/InstrumentLine.tsx';
import { CheckThing } from './CheckThing.tsx';
import { DueMark } from './DueMark.tsx';
import { EditThing } from './EditThing.tsx';

interface Line {
  readonly id: string;
  readonly name: string;
  readonly notes: readonly string[];
  readonly due: ReactNode;
}

function personLine({ id, name, roles, qualification, competence = [] }: Shop['people'][number]): Line {
  return {
    id,
    name,
    notes: [[roles.map((role) => say(`role.${role}`)).join(', '), qualification].filter(Boolean).join('; ')],
    due: competence.map(({ sensor, evidence, until }) => (
      <span key={sensor} className="competence">
        <span className="quiet">{say('shop.competence', { sensor: say(`sensor.${sensor}`), evidence })}</span>
        <DueMark dueOn={until} of="competence" />
      </span>
    )),
  };
}

function checkWords(check: NonNullable<Shop['targets'][number]['checks']>[number]): string {
  const values = { day: check.on, by: check.by, found: lengthText(foundMm(check), 2) };
  return say(keepsItsLimit(check) ? 'shop.checkKept' : 'shop.checkFailed', values);
}

function sizeOf(shop: Shop, kind: ThingKind, id: string): string {
  const fixture = kind === 'fixtures' ? shop.fixtures.find((each) => each.id === id) : undefined;
  if (fixture !== undefined)
    return say('shop.bar', {
      length: lengthText(fixture.barLengthMm, 1),
      u: lengthText(fixture.barLengthUMm, 1),
    });
  const target = kind === 'targets' ? shop.targets.find((each) => each.id === id) : undefined;
  if (target !== undefined)
    return say('shop.board', {
      width: lengthText(target.widthMm, 1),
      height: lengthText(target.heightMm, 1),
    });
  const arm = kind === 'sideArms' ? shop.sideArms.find((each) => each.id === id) : undefined;
  if (arm !== undefined)
    return say('shop.arm', {
      side: say(`thing.side.${arm.side}`),
      length: lengthText(arm.lengthMm, 1),
      u: lengthText(arm.uMm, 1),
    });
  const instrument = kind === 'instruments' ? shop.instruments.find((each) => each.id === id) : undefined;
  if (instrument === undefined) return '';
  const sends =
    instrument.stream === undefined ? '' : `; ${say(`shop.sends.${instrument.stream.source.kind}`)}`;
  return `${say(`thing.kind.${instrument.kind}`)}: ${instrumentWords(instrument)}${sends}`;
}

function linesOf(shop: Shop, kind: ThingKind): readonly Line[] {
  if (kind === 'people') return shop.people.map(personLine);
  return shop[kind].map((thing) => {
    const { id, name, serial, certificate, dueOn } = thing;
    const number = serial === '' ? say('shop.noSerial') : serial;
    const last = 'checks' in thing ? thing.checks?.at(-1) : undefined;
    return {
      id,
      name,
      notes: [
        sizeOf(shop, kind, id),
        say('shop.traced', {
          serial: number,
          certificate: certificate === '' ? say('shop.noSerial') : certificate,
        }),
        last === undefined ? '' : checkWords(last),
      ].filter(Boolean),
      due: <DueMark dueOn={dueOn} />,
    };
  });
}

export function ThingList({
  shop,
  kind,
  mayAdd,
}: {
  readonly shop: Shop;
  readonly kind: ThingKind;
  readonly mayAdd: boolean;
}): ReactNode {
  const [editing, setEditing] = useState<{ readonly id?: string } | null>(null);
  const [checking, setChecking] = useState<string | null>(null);
  const lines = linesOf(shop, kind);
  const checked = kind === 'fixtures' || kind === 'targets' ? kind : undefined;
  return (
    <section className="sheet" data-things={kind}>
      <h2 className="overline">{say(`shop.${kind}`)}</h2>
      {lines.length === 0 ? <p>{say('shop.noneYet')}</p> : null}
      <ul className="things">
        {lines.map((line) => (
          <li key={line.id} data-thing={line.id} className="thing">
            <div className="thing-words">
              <span className="strong">{line.name}</span>
              {line.notes.map((note) => (
                <span key={note} className="quiet">
                  {note}
                </span>
              ))}
              {line.due}
            </div>
            {mayAdd && checked !== undefined ? (
              <Button
                weight="quiet"
                icon="check"
                onPress={() => setChecking(line.id)}
                label={say('shop.checkNamed', { name: line.name })}
                testId="check-thing"
              >
                {say('shop.check')}
              </Button>
            ) : null}
            {mayAdd ? (
              <Button
                weight="quiet"
                onPress={() => setEditing({ id: line.id })}
                label={say('shop.changeNamed', { name: line.name })}
                testId="edit-thing"
              >
                {say('shop.change')}
              </Button>
            ) : null}
          </li>
        ))}
      </ul>
      {mayAdd ? (
        <div>
          <Button icon="add" onPress={() => setEditing({})} testId={`add-${kind}`}>
            {say('act.add')}
          </Button>
        </div>
      ) : null}
      {editing === null ? null : (
        <EditThing shop={shop} kind={kind} id={editing.id} onClose={() => setEditing(null)} />
      )}
      {checking === null || checked === undefined ? null : (
        <CheckThing shop={shop} kind={checked} id={checking} onClose={() => setChecking(null)} />
      )}
    </section>
  );
}
