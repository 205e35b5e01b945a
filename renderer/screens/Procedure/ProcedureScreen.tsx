/** Which screen about a procedure the address names. */
import '../../state/zodWithoutEval.ts';
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import type { ProcedureAct } from '../../state/route.ts';
import { useWindow } from '../../state/windowContext.tsx';
import { CompareScreen } from './CompareScreen.tsx';
import { ForeignReview } from './ForeignReview.tsx';
import { ProcedureForm } from './ProcedureForm.tsx';
import { ProcedurePage } from './ProcedurePage.tsx';
import { ReviewScreen } from './ReviewScreen.tsx';

export function ProcedureScreen({ act, id }: { readonly act: ProcedureAct; readonly id: string }): ReactNode {
  const shop = useWindow((state) => state.status?.shop ?? null);
  if (shop === null) return null;
  const procedure = shop.procedures.find((each) => each.id === id);
  if (act === 'quick')
    return <ProcedureForm title={say('procedureForm.quick')} procedure={undefined} quick />;
  if (act === 'new')
    return <ProcedureForm title={say('procedureForm.new')} procedure={undefined} quick={false} />;
  if (act === 'foreign') return <ForeignReview />;
  if (procedure === undefined) {
    return (
      <ProcedurePage title={say('shop.procedures')} testId="no-procedure">
        <p>{say('procedureList.gone')}</p>
      </ProcedurePage>
    );
  }
  if (act === 'review') return <ReviewScreen procedure={procedure} />;
  if (act === 'compare') return <CompareScreen shop={shop} id={id} />;
  const title = say('procedureForm.edit', { title: procedure.title });
  return <ProcedureForm title={title} procedure={procedure} quick={false} />;
}
