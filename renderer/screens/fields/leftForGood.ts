/** Whether a field was left for another place of the window, as opposed to the whole window losing the focus. */

/** False while another program is in front: half a word is then kept as a draft and not recorded. */
export function leftForGood(): boolean {
  return document.hasFocus();
}
