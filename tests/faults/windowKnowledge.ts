/**
 * What a person at the window knows of the fields they typed in: what they saw recorded, what they sent without seeing an
 * answer, what they typed and when. After a kill the store and the window are held against it. Every text is used once, so
 * that a lost or doubled entry shows by its text.
 */
import type { Outcome } from './faultProgram.ts';

/** A draft whose last key is older than this must survive a kill, ms. */
export const DRAFT_SAFE_MS = 500;

/** One state of the text in a field, and when the key that made it was pressed. */
export interface TypedText {
  readonly text: string;
  readonly atMs: number;
}

export interface FieldKnowledge {
  /** Key of the field or reading slot, as drafts are kept under. */
  readonly key: string;
  /** Texts that were sent: true once the window said recorded. */
  readonly sent: Map<string, boolean>;
  /** Since the last record that was seen, oldest first. */
  typed: readonly TypedText[];
}

/** What lies in the store after a kill. */
export interface StoreLook {
  /** Texts of the recorded entries of this field, in order. */
  readonly recorded: readonly string[];
  readonly draft: string | undefined;
}

/** What the window, started again, shows of a field. */
export interface WindowLook {
  readonly text: string;
  /** Its mark: recorded, restored (typed, not recorded), ... */
  readonly mark: string;
}

/** How a life ended: when, and whether machine and service kept up until then. */
export interface Death {
  readonly atMs: number;
  readonly keptUp: boolean;
}

const times = (texts: readonly string[], text: string): number =>
  texts.filter((each) => each === text).length;

function entryProblems(field: FieldKnowledge, look: StoreLook): readonly string[] {
  const problems: string[] = [];
  for (const [text, seen] of field.sent) {
    const count = times(look.recorded, text);
    if (count > 1) problems.push(`${field.key}: "${text}" is recorded ${count} times`);
    if (seen && count === 0) problems.push(`${field.key}: "${text}" was shown as recorded and is lost`);
  }
  for (const text of look.recorded) {
    if (!field.sent.has(text)) problems.push(`${field.key}: "${text}" is recorded and was never sent`);
  }
  return problems;
}

/** The newest text that is not recorded and was old enough to be safe, by its place among the typed ones. */
function dueIndex(field: FieldKnowledge, look: StoreLook, death: Death): number {
  const safe = field.typed.findLastIndex(({ atMs }) => death.atMs - atMs >= DRAFT_SAFE_MS);
  const text = field.typed[safe]?.text;
  const last = field.typed.at(-1)?.text;
  // What was recorded with the last text leaves no draft behind.
  if (last !== undefined && look.recorded.includes(last)) return -1;
  return text === undefined || text === '' ? -1 : safe;
}

/**
 * Compares one field. A draft that is not there while the machine was not keeping up is counted apart: the promise of
 * 500 ms needs a machine that runs.
 */
export function judgeField(
  field: FieldKnowledge,
  look: StoreLook,
  shown: WindowLook | undefined,
  death: Death,
): Outcome {
  const problems = [...entryProblems(field, look)];
  const due = dueIndex(field, look, death);
  const found = look.draft === undefined ? -1 : field.typed.findLastIndex(({ text }) => text === look.draft);
  let draftsNotJudged = 0;
  if (look.draft !== undefined && found < 0)
    problems.push(`${field.key}: the draft "${look.draft}" was never typed`);
  if (found < due) {
    const late = field.typed[due];
    const age = late === undefined ? 0 : Math.round(death.atMs - late.atMs);
    if (death.keptUp || age === Number.POSITIVE_INFINITY) {
      problems.push(
        `${field.key}: the draft "${late?.text}", ${age} ms old, is lost; "${look.draft ?? ''}" is there`,
      );
    } else draftsNotJudged += 1;
  }
  if (shown !== undefined) problems.push(...windowProblems(field, look, shown));
  const counts = {
    draftsLooked: due >= 0 ? 1 : 0,
    draftsBack: look.draft === undefined ? 0 : 1,
    draftsNotJudged,
    recordedUnseen: [...field.sent].filter(([text, seen]) => !seen && look.recorded.includes(text)).length,
  };
  return { counts, problems };
}

function windowProblems(field: FieldKnowledge, look: StoreLook, shown: WindowLook): readonly string[] {
  const { draft } = look;
  if (draft !== undefined) {
    return shown.text === draft && shown.mark === 'restored'
      ? []
      : [`${field.key}: the draft "${draft}" is shown as "${shown.text}", ${shown.mark}`];
  }
  return shown.mark === 'restored' ? [`${field.key}: "${shown.text}" is shown as a draft and is none`] : [];
}

/** What is known of a field once the store has been looked into: the next life starts from here. */
export function afterLook(field: FieldKnowledge, look: StoreLook): void {
  for (const text of field.sent.keys()) {
    if (look.recorded.includes(text)) field.sent.set(text, true);
    else field.sent.delete(text);
  }
  // A draft that is in the store now must be there after every later kill, however slow the machine.
  field.typed = look.draft === undefined ? [] : [{ text: look.draft, atMs: Number.NEGATIVE_INFINITY }];
}
