/** What the shop works with: people, fixtures, targets, side arms, instruments, procedures; each can be added to. */
import '../../state/zodWithoutEval.ts';
import { type ReactNode, useState } from 'react';
import type { Shop } from '../../../core/job/shop.ts';
import { say } from '../../../core/words/index.ts';
import type { ThingKind } from '../../state/shopForms.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { PersonChooser } from '../Job/PersonChooser.tsx';
import { AddThing } from './AddThing.tsx';
import { Procedures } from './Procedures.tsx';

const KINDS: readonly ThingKind[] = ['people', 'fixtures', 'targets', 'sideArms', 'instruments'];

/** One line of a list: the name, and what tells it from its like. */
function lineOf(shop: Shop, kind: ThingKind): readonly { id: string; name: string; note: string }[] {
  if (kind === 'people') {
    return shop.people.map(({ id, name, roles, qualification }) => ({
      id,
      name,
      note: [roles.map((role) => say(`role.${role}`)).join(', '), qualification].filter(Boolean).join('; '),
    }));
  }
  return shop[kind].map(({ id, name, serial, dueOn }) => ({
    id,
    name,
    note: say('shop.thing', { serial: serial === '' ? say('shop.noSerial') : serial, due: dueOn }),
  }));
}

function ThingList({
  shop,
  kind,
  mayAdd,
}: {
  readonly shop: Shop;
  readonly kind: ThingKind;
  readonly mayAdd: boolean;
}): ReactNode {
  const [adding, setAdding] = useState(false);
  const lines = lineOf(shop, kind);
  return (
    <section className="sheet" data-things={kind}>
      <h2 className="overline">{say(`shop.${kind}`)}</h2>
      {lines.length === 0 ? <p>{say('shop.noneYet')}</p> : null}
      <ul className="things">
        {lines.map((line) => (
          <li key={line.id}>
            <span className="strong">{line.name}</span> <span className="quiet">{line.note}</span>
          </li>
        ))}
      </ul>
      {mayAdd ? (
        <div>
          <Button icon="add" onPress={() => setAdding(true)} testId={`add-${kind}`}>
            {say('act.add')}
          </Button>
        </div>
      ) : null}
      {adding ? <AddThing shop={shop} kind={kind} onClose={() => setAdding(false)} /> : null}
    </section>
  );
}

export function ShopScreen(): ReactNode {
  const actions = useActions();
  const shop = useWindow((state) => state.status?.shop ?? null);
  const person = useWindow((state) => state.person);
  const problem = useWindow((state) => state.problem);
  if (shop === null) return null;
  const mayAdd = shop.people.find((each) => each.id === person)?.roles.includes('owner') ?? false;
  return (
    <main className="page" data-testid="shop">
      <div className="page-head">
        <div className="page-title">
          <h1>{shop.name}</h1>
          <span className="quiet">
            {say('shop.line', { code: shop.code, bays: shop.bays.map((bay) => bay.name).join(', ') })}
          </span>
        </div>
        <PersonChooser />
        <Button icon="home" onPress={() => actions.go({ screen: 'home' })}>
          {say('act.home')}
        </Button>
      </div>
      {mayAdd ? null : <p className="question">{say('shop.ownerOnly')}</p>}
      {problem === null ? null : <ErrorNotice error={problem} />}
      <div className="shop-grid">
        {KINDS.map((kind) => (
          <ThingList key={kind} shop={shop} kind={kind} mayAdd={mayAdd} />
        ))}
        <Procedures shop={shop} mayAdd={mayAdd} />
      </div>
    </main>
  );
}
