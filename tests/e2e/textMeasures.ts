// What is wrong with how text and targets lie in the window. Each function runs in the page, so it holds all it needs.
import { expect } from '@playwright/test';

/** Text that lies outside what shows it: beyond a box that cuts, or beyond the window. Typed text may scroll. */
export function cutText(): readonly string[] {
  const cut: string[] = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const covered = document.querySelector('.cover, .veil');
  while (walker.nextNode()) {
    const node = walker.currentNode;
    const parent = node.parentElement;
    const text = node.textContent?.trim() ?? '';
    if (text === '' || parent === null || parent.closest('.visually-hidden, style, script, option') !== null)
      continue;
    if (covered !== null && !covered.contains(parent)) continue;
    if (!parent.checkVisibility({ visibilityProperty: true, contentVisibilityAuto: true })) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    const box = range.getBoundingClientRect();
    if (box.width === 0) continue;
    const tell = (why: string): void => {
      cut.push(`"${text.slice(0, 60)}" ${why} (${parent.closest('[class]')?.getAttribute('class')})`);
    };
    if (box.right > window.innerWidth + 1 || box.left < -1) tell('leaves the window');
    let scrolls = false;
    for (let each: Element | null = parent; each !== null; each = each.parentElement) {
      const style = getComputedStyle(each);
      if (style.overflowX === 'visible' || style.display === 'inline') continue;
      const frame = each.getBoundingClientRect();
      if (frame.width === 0) continue;
      if (box.right > frame.right + 1 || box.left < frame.left - 1) {
        tell(`is cut by ${each.getAttribute('class')}`);
        break;
      }
      // Beyond a box that scrolls, height says nothing: the text can be brought into sight.
      scrolls ||= style.overflowY === 'auto' || style.overflowY === 'scroll';
      if (
        !scrolls &&
        style.overflowY === 'hidden' &&
        (box.bottom > frame.bottom + 2 || box.top < frame.top - 2)
      ) {
        tell(`is cut in height by ${each.getAttribute('class')}`);
        break;
      }
    }
  }
  return cut;
}

/** Text that runs out of the button, card or notice it stands in. */
export function spilledText(): readonly string[] {
  return [
    ...document.querySelectorAll(
      '.button, .choice, .card, .sheet, .notice, .question, .key, th, td, .rail-stage',
    ),
  ]
    .filter((box) => box.checkVisibility() && box.scrollWidth > box.clientWidth + 1)
    .map((box) => `${box.getAttribute('class')}: "${box.textContent?.trim().slice(0, 60)}"`);
}

/** A drawing is drawn anew a moment after its room has changed: what is measured may take that long to be right. */
export const settled = expect.configure({ soft: true, timeout: 3_000 });

/** What a gloved finger could miss: lower or narrower than 48 pixels. */
export function smallTargets(): readonly string[] {
  const covered = document.querySelector('.cover, .veil');
  return (
    [...document.querySelectorAll('button, input, a[href], summary')]
      .filter((each) => (covered === null || covered.contains(each)) && each.checkVisibility())
      .filter((each) => each.closest('.visually-hidden, [aria-hidden="true"]') === null)
      .filter((each) => each.getAttribute('type') !== 'file')
      // Hidden from the eye only: what a reader for the blind closes a dialog or a list with.
      .filter((each) => each.getBoundingClientRect().height > 8)
      .flatMap((each) => {
        const { width, height } = each.getBoundingClientRect();
        if (width === 0 || (width >= 47.5 && height >= 47.5)) return [];
        return [
          `${each.getAttribute('class')} ${Math.round(width)}x${Math.round(height)} "${each.textContent?.slice(0, 40)}"`,
        ];
      })
  );
}
