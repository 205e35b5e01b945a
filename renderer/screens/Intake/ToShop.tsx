/** Something the shop does not have yet: says so and leads to where it is added. */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import { openShopTab, type ShopTab } from '../../state/shopDrafts.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';

export function ToShop({ words, tab }: { readonly words: string; readonly tab: ShopTab }): ReactNode {
  const actions = useActions();
  const open = (): void => {
    openShopTab(tab);
    actions.go({ screen: 'shop' });
  };
  return (
    <div className="question">
      <span className="question-text">{words}</span>
      <Button onPress={open}>{say('shop.open')}</Button>
    </div>
  );
}
