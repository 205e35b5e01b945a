// Moving through the window by keyboard alone, as a person with gloves or a clicker does.
import type { Locator, Page } from '@playwright/test';
import { expect } from './expect.ts';

/** More presses of Tab than any form has stops between two of its fields. */
const MOST_TABS = 12;

function hasFocus(place: Locator): Promise<boolean> {
  return place.evaluate((element) => element.contains(document.activeElement));
}

/** Presses Tab until the focus is inside `place`; true if it came there. */
export async function tabInto(page: Page, place: Locator): Promise<boolean> {
  for (let press = 0; press < MOST_TABS; press += 1) {
    if (await hasFocus(place)) return true;
    await page.keyboard.press('Tab');
  }
  return hasFocus(place);
}

/** Walks with the arrow keys to the choice of this value and presses Space. The focus is inside `group`. */
export async function chooseByArrows(page: Page, group: Locator, value: string): Promise<void> {
  const choices = await group.locator('[data-value]').count();
  const wanted = group.locator(`[data-value="${value}"]`);
  for (let press = 0; press < choices; press += 1) {
    if (await hasFocus(wanted)) break;
    await page.keyboard.press('ArrowRight');
  }
  await expect(wanted).toBeFocused();
  await page.keyboard.press('Space');
}

/** Types over whatever stands in the box that has the focus. */
export async function typeOver(page: Page, text: string): Promise<void> {
  await page.keyboard.press('ControlOrMeta+A');
  if (text === '') await page.keyboard.press('Delete');
  else await page.keyboard.type(text);
}
