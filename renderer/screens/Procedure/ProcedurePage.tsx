/** The frame of every screen about a procedure: what it is, who works here, the way to the shop. */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import { goToProcedures } from '../../state/goToProcedures.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { PersonChooser } from '../Job/PersonChooser.tsx';

export function ProcedurePage({
  title,
  testId,
  children,
}: {
  readonly title: string;
  readonly testId: string;
  readonly children: ReactNode;
}): ReactNode {
  const actions = useActions();
  return (
    <main className="page page-procedure" data-testid={testId}>
      <div className="page-head">
        <div className="page-title">
          <h1>{title}</h1>
        </div>
        <PersonChooser />
        <Button icon="shop" testId="to-shop" onPress={() => goToProcedures(actions)}>
          {say('shop.open')}
        </Button>
      </div>
      {children}
    </main>
  );
}
