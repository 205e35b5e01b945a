/** The draft of a procedure under the hands of a person: kept at every key, checked at every key, recorded at the end. */
import { useMemo, useRef, useState } from 'react';
import type { Procedure } from '../../core/procedure/index.ts';
import { isReviewed } from '../../core/procedure/index.ts';
import { forgetDraft, keepDraft, keptDraft, localPlace } from './keptDraft.ts';
import type { CallError } from './ports.ts';
import type { ProcedureDraft } from './procedureDraft.ts';
import { type FieldFault, procedureOfDraft } from './procedureOfDraft.ts';
import { trialInputs } from './procedureTrial.ts';
import { today } from './today.ts';
import { useActions, useWindow } from './windowContext.tsx';

export interface HeldDraft {
  readonly draft: ProcedureDraft;
  readonly change: (draft: ProcedureDraft) => void;
  readonly now: () => ProcedureDraft;
  /** Something was typed in an earlier look and not recorded. */
  readonly restored: boolean;
  readonly unchanged: boolean;
  readonly startOver: () => void;
  /** The edition this becomes. */
  readonly edition: number;
  /** What to say now: what is merely empty only after somebody tried to record. */
  readonly faults: readonly FieldFault[];
  readonly tried: Readonly<Record<string, string>>;
  readonly tryWith: (name: string, text: string) => void;
  readonly trial: ReadonlyMap<string, number>;
  readonly error: CallError | null;
  /** Records it if nothing is wrong; answers whether it was. */
  readonly record: () => Promise<boolean>;
  readonly mayRecord: boolean;
}

/** The number of the edition that follows what is here: a reviewed one is never written over. */
export function nextEdition(held: Procedure | undefined): number {
  if (held === undefined) return 1;
  return isReviewed(held) ? held.edition + 1 : held.edition;
}

export function useProcedureDraft(
  name: string,
  first: ProcedureDraft,
  held: Procedure | undefined,
): HeldDraft {
  const actions = useActions();
  const shop = useWindow((state) => state.status?.shop ?? null);
  const person = useWindow((state) => state.person);
  const [opened] = useState(() => keptDraft(localPlace, name, first));
  const [restored, setRestored] = useState(opened !== undefined);
  const [draft, setDraft] = useState(opened ?? first);
  const latest = useRef(draft);
  const [asked, setAsked] = useState(false);
  const [tried, setTried] = useState<Readonly<Record<string, string>>>({});
  const [error, setError] = useState<CallError | null>(null);
  const edition = nextEdition(held);
  const enteredBy = shop?.people.find((each) => each.id === person)?.name ?? '';
  const made = useMemo(
    () =>
      procedureOfDraft(draft, {
        enteredBy: enteredBy || '?',
        today: today(),
        taken: shop?.procedures.map((each) => each.id) ?? [],
        edition,
      }),
    [draft, enteredBy, shop, edition],
  );
  const trial = useMemo(() => trialInputs(draft.inputs, tried), [draft.inputs, tried]);
  const change = (next: ProcedureDraft): void => {
    latest.current = next;
    setDraft(next);
    keepDraft(localPlace, name, next);
  };
  return {
    draft,
    change,
    now: () => latest.current,
    restored,
    unchanged: JSON.stringify(draft) === JSON.stringify(first),
    startOver: () => {
      forgetDraft(localPlace, name);
      latest.current = first;
      setDraft(first);
      setRestored(false);
      setAsked(false);
    },
    edition,
    faults: made.ok ? [] : made.error.filter((each) => asked || !each.missing),
    tried,
    tryWith: (input, text) => setTried({ ...tried, [input]: text }),
    trial,
    error,
    mayRecord: enteredBy !== '',
    record: async () => {
      setAsked(true);
      if (!made.ok || enteredBy === '') return false;
      const failure = await actions.recordProcedure(made.value);
      setError(failure);
      if (failure === null) forgetDraft(localPlace, name);
      return failure === null;
    },
  };
}
