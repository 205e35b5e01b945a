/** What a sensor is measured with: fixture, target, side arms, instruments and how carefully the work is done. */
import { type ReactNode, useState } from 'react';
import type { Equipment } from '../../../core/job/equipment.ts';
import type { JobSensor } from '../../../core/job/job.ts';
import type { Shop } from '../../../core/job/shop.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { SelectList } from '../../ui/SelectList.tsx';
import { ToShop } from './ToShop.tsx';

const WORK = ['typical', 'careful', 'best'] as const;
type Work = (typeof WORK)[number];

interface Wish {
  readonly fixture: string | undefined;
  readonly target: string | undefined;
  readonly work: Work;
}

/** The equipment of a wish, or undefined while the shop lacks a part of it. */
export function equipmentOf(shop: Shop, wish: Wish): Equipment | undefined {
  const fixture = shop.fixtures.find((each) => each.id === wish.fixture) ?? shop.fixtures[0];
  const target = shop.targets.find((each) => each.id === wish.target) ?? shop.targets[0];
  const left = shop.sideArms.find((each) => each.side === 'left');
  const right = shop.sideArms.find((each) => each.side === 'right');
  if (fixture === undefined || target === undefined || left === undefined || right === undefined)
    return undefined;
  if (shop.instruments.length === 0) return undefined;
  return {
    fixture,
    target,
    sideArms: [left, right],
    instruments: shop.instruments.slice(0, 20),
    work: wish.work,
    ...(shop.repeatability === undefined ? {} : { repeatability: shop.repeatability }),
  };
}

function EquipmentLine({ equipment }: { readonly equipment: Equipment }): ReactNode {
  const things = [equipment.fixture, equipment.target, ...equipment.sideArms, ...equipment.instruments];
  return (
    <details className="equipment-list">
      <summary>{say('equipment.list', { count: String(things.length) })}</summary>
      <ul>
        {things.map((thing) => (
          <li key={thing.id} className="quiet">
            {say('equipment.thing', { name: thing.name, serial: thing.serial, due: thing.dueOn })}
          </li>
        ))}
      </ul>
    </details>
  );
}

export function EquipmentChoice({
  held,
  sensor,
}: {
  readonly held: HeldJob;
  readonly sensor: JobSensor;
}): ReactNode {
  const actions = useActions();
  const shop = useWindow((state) => state.status?.shop ?? null);
  const [wish, setWish] = useState<Partial<Wish>>({});
  if (shop === null) return null;
  const chosen = sensor.equipment;
  const now: Wish = {
    fixture: wish.fixture ?? chosen?.fixture.id ?? shop.fixtures[0]?.id,
    target: wish.target ?? chosen?.target.id ?? shop.targets[0]?.id,
    work: wish.work ?? chosen?.work ?? 'careful',
  };
  const equipment = equipmentOf(shop, now);
  const isChosen =
    chosen !== null &&
    chosen.fixture.id === now.fixture &&
    chosen.target.id === now.target &&
    chosen.work === now.work;
  if (equipment === undefined) return <ToShop words={say('equipment.noneHere')} tab="equipment" />;
  return (
    <div className="field equipment" data-field={`intake.equipment@${sensor.sensor}`}>
      <div className="form-grid">
        <SelectList
          label={say('equipment.fixture')}
          placeholder={say('act.choose')}
          chosen={now.fixture ?? null}
          items={shop.fixtures.map((each) => ({ value: each.id, text: each.name }))}
          onChoose={(fixture) => setWish({ ...wish, fixture })}
        />
        <SelectList
          label={say('equipment.target')}
          placeholder={say('act.choose')}
          testId={`target-${sensor.sensor}`}
          chosen={now.target ?? null}
          items={shop.targets.map((each) => ({ value: each.id, text: each.name }))}
          onChoose={(target) => setWish({ ...wish, target })}
        />
      </div>
      <ChoiceButtons
        label={say('equipment.work')}
        items={WORK.map((value) => ({ value, text: say(`work.${value}`) }))}
        chosen={[now.work]}
        onChoose={([value]) => setWish({ ...wish, work: WORK.find((each) => each === value) ?? now.work })}
      />
      <div className="field-line">
        {isChosen ? (
          <span className="mark" data-mark="recorded">
            {say('equipment.chosen')}
          </span>
        ) : (
          <Button
            weight="main"
            testId={`use-equipment-${sensor.sensor}`}
            onPress={() =>
              void actions.record(held.job.id, [
                { type: 'equipmentChosen', v: 1, payload: { sensor: sensor.sensor, equipment } },
              ])
            }
          >
            {say('equipment.use')}
          </Button>
        )}
        <EquipmentLine equipment={chosen ?? equipment} />
      </div>
    </div>
  );
}
