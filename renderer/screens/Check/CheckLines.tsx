/** The answers of a certificate check, line by line: yes, no, cannot be told here. */
import type { ReactNode } from 'react';
import type { Output } from '../../../core/contract/index.ts';
import { say } from '../../../core/words/index.ts';
import { sayKey } from '../../text/sayKey.ts';
import { VerdictMark } from '../../ui/VerdictMark.tsx';

type Report = Output<'certificate.check'>;

const KIND = { yes: 'proven', unknown: 'notProven', no: 'outside' } as const;
const SUM = ['allYes', 'someNo', 'someUnknown'] as const;

export function CheckLines({ report }: { readonly report: Report }): ReactNode {
  return (
    <div className="check" data-testid="check" data-exit={report.exitCode}>
      <p className="strong">{say(`check.sum.${SUM[report.exitCode] ?? 'someUnknown'}`)}</p>
      <ul className="check-lines">
        {report.lines.map((line) => (
          <li key={line.id} data-check={line.id} data-answer={line.answer}>
            <VerdictMark kind={KIND[line.answer]} words={say(`check.answer.${line.answer}`)} />
            <span>
              {sayKey(
                line.text,
                Object.fromEntries(Object.entries(line.values).map(([name, value]) => [name, String(value)])),
              )}
            </span>
          </li>
        ))}
      </ul>
    </div>
  );
}
