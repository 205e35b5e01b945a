/** To the shop, opened at its procedures: where whoever wrote or reviewed one looks for it. */
import type { Actions } from './actions.ts';
import { openShopTab } from './shopDrafts.ts';

export function goToProcedures(actions: Actions): void {
  openShopTab('procedures');
  actions.go({ screen: 'shop' });
}
