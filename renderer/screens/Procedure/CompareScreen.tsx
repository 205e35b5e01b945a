/** Two editions side by side: only what differs, value by value. */
import { type ReactNode, useState } from 'react';
import type { Shop } from '../../../core/job/shop.ts';
import type { Procedure } from '../../../core/procedure/index.ts';
import { say } from '../../../core/words/index.ts';
import { type Difference, procedureDifferences } from '../../state/procedureValues.ts';
import { SelectList } from '../../ui/SelectList.tsx';
import { ProcedurePage } from './ProcedurePage.tsx';

interface Choice {
  readonly value: string;
  readonly text: string;
  readonly procedure: Procedure;
}

/** Every edition that is kept, those of `id` first, the latest first. */
export function comparable(shop: Shop, id: string): readonly Choice[] {
  const all = [...shop.procedures, ...(shop.formerProcedures ?? []).toReversed()];
  return [...all.filter((each) => each.id === id), ...all.filter((each) => each.id !== id)].map(
    (procedure) => ({
      value: `${procedure.id}@${procedure.edition}`,
      text: say('compare.option', { title: procedure.title, edition: String(procedure.edition) }),
      procedure,
    }),
  );
}

function Differences({ lines }: { readonly lines: readonly Difference[] }): ReactNode {
  if (lines.length === 0) return <p role="status">{say('compare.same')}</p>;
  return (
    <section className="sheet jobs" data-testid="differences">
      <table>
        <caption className="visually-hidden">{say('compare.title')}</caption>
        <thead>
          <tr>
            <th scope="col">{say('reviewing.value')}</th>
            <th scope="col">{say('compare.before')}</th>
            <th scope="col">{say('compare.after')}</th>
          </tr>
        </thead>
        <tbody>
          {lines.map(({ where, label, before, after }) => (
            <tr key={where} data-differs={where}>
              <th scope="row">{label}</th>
              <td>{before ?? <span className="quiet">{say('compare.absent')}</span>}</td>
              <td className="strong">{after ?? <span className="quiet">{say('compare.absent')}</span>}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

export function CompareScreen({ shop, id }: { readonly shop: Shop; readonly id: string }): ReactNode {
  const choices = comparable(shop, id);
  const [after, setAfter] = useState(choices[0]?.value ?? '');
  const [before, setBefore] = useState(choices[1]?.value ?? '');
  const procedureOf = (value: string): Procedure | undefined =>
    choices.find((each) => each.value === value)?.procedure;
  const [one, other] = [procedureOf(before), procedureOf(after)];
  const lines = one === undefined || other === undefined ? undefined : procedureDifferences(one, other);
  return (
    <ProcedurePage title={say('compare.title')} testId="compare-procedures">
      <div className="compare-choice">
        <SelectList
          label={say('compare.before')}
          placeholder={say('compare.choose')}
          testId="compare-before"
          items={choices}
          chosen={before || null}
          onChoose={setBefore}
        />
        <SelectList
          label={say('compare.after')}
          placeholder={say('compare.choose')}
          testId="compare-after"
          items={choices}
          chosen={after || null}
          onChoose={setAfter}
        />
      </div>
      {choices.length < 2 ? <p>{say('compare.onlyOne')}</p> : null}
      {lines === undefined || lines.length === 0 ? null : (
        <p>{say('compare.count', { count: String(lines.length) })}</p>
      )}
      {lines === undefined ? null : <Differences lines={lines} />}
    </ProcedurePage>
  );
}
