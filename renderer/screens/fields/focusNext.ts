/** The next field opens by itself: after Enter the focus goes to the next box or choice of the same form. */

const STOPS = 'input, [role="radiogroup"] [role="radio"], [role="toolbar"] button, .choices button';

/** Moves the focus from `from` to the next stop of its form that belongs to another field; stays on the last one. */
export function focusNext(from: Element | null): void {
  const form = from?.closest('[data-form]');
  const own = from?.closest('[data-field]');
  if (from == null || form == null) return;
  const stops = [...form.querySelectorAll<HTMLElement>(STOPS)];
  const start = stops.findIndex((stop) => stop.contains(from));
  const next = stops.slice(start + 1).find((stop) => stop.closest('[data-field]') !== own);
  next?.focus();
}
