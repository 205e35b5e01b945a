/** What the job is measured with and until when each piece's check holds; an overdue one asks for a reason. */
import type { ReactNode } from 'react';
import { atPiece, type UsedPiece, usedPieces, workDay } from '../../../core/job/dueDates.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { TypedField } from '../fields/TypedField.tsx';
import { BayPart } from './BayPart.tsx';
import { FieldsOf } from './FieldsOf.tsx';

const REASON = { id: 'bay.overdueReason', kind: 'text', label: 'field.bay.overdueReason' } as const;

function Piece({ held, piece }: { readonly held: HeldJob; readonly piece: UsedPiece }): ReactNode {
  const details = [
    say(`bay.due.kind.${piece.kind}`),
    ...(piece.serial === '' ? [] : [say('bay.due.serial', { serial: piece.serial })]),
  ];
  return (
    <li className="bay-piece" data-piece={piece.id} data-overdue={piece.overdue || undefined}>
      <span className="bay-piece-name">
        <span className="strong">{piece.name}</span>
        <span className="quiet">{details.join(', ')}</span>
      </span>
      <span className="bay-piece-due">
        <span className={piece.overdue ? 'bay-overdue' : ''}>
          {say(piece.overdue ? 'bay.due.overdue' : 'bay.due.good')}
        </span>
        <span className="quiet">{say('bay.due.on', { day: piece.dueOn })}</span>
      </span>
      {piece.withoutCertificate ? <p className="question">{say('bay.due.noCertificate')}</p> : null}
      {piece.overdue ? <TypedField held={held} field={REASON} at={atPiece(piece.id)} /> : null}
    </li>
  );
}

export function DuePart({ held, tabs }: { readonly held: HeldJob; readonly tabs: ReactNode }): ReactNode {
  const pieces = usedPieces(held.job);
  const overdue = pieces.filter((piece) => piece.overdue).length;
  const main =
    pieces.length === 0 ? (
      <section className="sheet empty" data-testid="due-empty">
        <p>{say('bay.due.none')}</p>
      </section>
    ) : (
      <section className="sheet bay-pieces" data-testid="due-list">
        <h2 className="overline">
          {say('bay.due.count', { count: String(pieces.length), overdue: String(overdue) })}
        </h2>
        <ul>
          {pieces.map((piece) => (
            <Piece key={piece.id} held={held} piece={piece} />
          ))}
        </ul>
      </section>
    );
  return (
    <BayPart tabs={tabs} main={main}>
      <p>{say('bay.due.purpose', { day: workDay(held.job) })}</p>
      <section className="sheet">
        <FieldsOf held={held} names={['bay.instrumentsFit']} />
      </section>
    </BayPart>
  );
}
