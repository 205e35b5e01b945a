/** What is typed in the forms of the shop and not recorded: kept while the window is open, whatever else is looked at. */
import { create } from 'zustand';
import type { ThingTexts } from './shopForms.ts';

export const SHOP_TABS = [
  'shop',
  'bays',
  'equipment',
  'instruments',
  'people',
  'procedures',
  'thisPc',
] as const;
export type ShopTab = (typeof SHOP_TABS)[number];

interface ShopDrafts {
  readonly tab: ShopTab;
  /** By the name of the form. */
  readonly texts: Readonly<Record<string, ThingTexts>>;
}

export const useShopDrafts = create<ShopDrafts>(() => ({ tab: 'shop', texts: {} }));

export function openShopTab(tab: ShopTab): void {
  useShopDrafts.setState({ tab });
}

export function keepDraft(form: string, texts: ThingTexts): void {
  useShopDrafts.setState((state) => ({ texts: { ...state.texts, [form]: texts } }));
}

export function dropDraft(form: string): void {
  useShopDrafts.setState((state) => ({
    texts: Object.fromEntries(Object.entries(state.texts).filter(([each]) => each !== form)),
  }));
}

/** The texts of a form: as typed, else as given; and how to change them. */
export function useDraft(
  form: string,
  given: ThingTexts,
): readonly [ThingTexts, (change: ThingTexts) => void, boolean] {
  const typed = useShopDrafts((state) => state.texts[form]);
  const texts = typed ?? given;
  return [texts, (change) => keepDraft(form, { ...texts, ...change }), typed !== undefined];
}
