/** Who may speak to the main process: the top frame of a window we opened, while it shows our own page. */
import { isOurUrl } from './origin.ts';

/** What the check needs to know of a sender; a frame that is already gone is null. */
export interface Sender {
  readonly contentsId: number | undefined;
  readonly frame: { readonly url: string; readonly parent: object | null } | null | undefined;
}

export type IsOurWindow = (contentsId: number) => boolean;

export function isOurSender({ frame, contentsId }: Sender, isOurWindow: IsOurWindow): boolean {
  if (!frame || contentsId === undefined) return false;
  return frame.parent === null && isOurUrl(frame.url) && isOurWindow(contentsId);
}
