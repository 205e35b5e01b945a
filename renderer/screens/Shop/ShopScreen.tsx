/** Everything the shop is and works with, in one place: itself, bays, equipment, instruments, people, procedures, this PC. */
import '../../state/zodWithoutEval.ts';
import type { ReactNode } from 'react';
import { Button as AriaButton } from 'react-aria-components';
import type { Shop } from '../../../core/job/shop.ts';
import { say } from '../../../core/words/index.ts';
import { openShopTab, SHOP_TABS, type ShopTab, useShopDrafts } from '../../state/shopDrafts.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { PersonChooser } from '../Job/PersonChooser.tsx';
import { BayList } from './BayList.tsx';
import { Procedures } from './Procedures.tsx';
import { ShopDetails } from './ShopDetails.tsx';
import { ThingList } from './ThingList.tsx';
import { ThisPc } from './ThisPc.tsx';

function TabContent({
  tab,
  shop,
  mayAdd,
}: {
  readonly tab: ShopTab;
  readonly shop: Shop;
  readonly mayAdd: boolean;
}): ReactNode {
  switch (tab) {
    case 'shop':
      return <ShopDetails shop={shop} mayChange={mayAdd} />;
    case 'bays':
      return <BayList shop={shop} mayChange={mayAdd} />;
    case 'equipment':
      return (
        <>
          <ThingList shop={shop} kind="fixtures" mayAdd={mayAdd} />
          <ThingList shop={shop} kind="targets" mayAdd={mayAdd} />
          <ThingList shop={shop} kind="sideArms" mayAdd={mayAdd} />
        </>
      );
    case 'instruments':
      return <ThingList shop={shop} kind="instruments" mayAdd={mayAdd} />;
    case 'people':
      return <ThingList shop={shop} kind="people" mayAdd={mayAdd} />;
    case 'procedures':
      return <Procedures shop={shop} mayAdd={mayAdd} />;
    case 'thisPc':
      return <ThisPc />;
  }
}

/** The screen with one of its parts open. */
export function ShopParts({ tab }: { readonly tab: ShopTab }): ReactNode {
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
      <nav className="tabs" aria-label={say('shop.tabs')}>
        {SHOP_TABS.map((each) => (
          <AriaButton
            key={each}
            className="tab"
            data-tab={each}
            aria-current={each === tab ? 'page' : 'false'}
            onPress={() => openShopTab(each)}
          >
            {say(`shop.tab.${each}`)}
          </AriaButton>
        ))}
      </nav>
      {mayAdd || tab === 'thisPc' || tab === 'procedures' ? null : (
        <p className="question">{say('shop.ownerOnly')}</p>
      )}
      {problem === null ? null : <ErrorNotice error={problem} />}
      <div className={tab === 'equipment' ? 'shop-grid' : 'shop-grid shop-one'}>
        <TabContent tab={tab} shop={shop} mayAdd={mayAdd} />
      </div>
    </main>
  );
}

export function ShopScreen(): ReactNode {
  return <ShopParts tab={useShopDrafts((state) => state.tab)} />;
}
