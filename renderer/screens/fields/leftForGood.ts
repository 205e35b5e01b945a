/** Whether a field was left for another place of the window, as opposed to the window losing the focus as a whole. */

/**
 * False while another program is in front, or a cover lies over the window (wiping, the view across the bay): half a
 * word is then kept as a draft and not recorded.
 */
export function leftForGood(): boolean {
  return document.hasFocus() && document.querySelector('.cover') === null;
}
