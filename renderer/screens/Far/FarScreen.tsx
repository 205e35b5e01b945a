/** The second window: the distance view of the job that is worked on in the first one, and nothing to touch. */
import { type ReactNode, useEffect, useState } from 'react';
import { say } from '../../../core/words/index.ts';
import { FAR_CHANNEL, type FarFacts, farReceiver } from '../../state/farMirror.ts';
import { DistanceBody } from '../../ui/DistanceView.tsx';

export function FarScreen(): ReactNode {
  const [facts, setFacts] = useState<FarFacts | null>(null);
  useEffect(() => farReceiver(new BroadcastChannel(FAR_CHANNEL), setFacts), []);
  if (facts === null) {
    return (
      <main className="page far-waits" data-testid="far-waits">
        <h1>{say('far.waits')}</h1>
        <p>{say('far.waitsWords')}</p>
      </main>
    );
  }
  return (
    <main className="distance far" data-testid="far">
      <DistanceBody
        line={facts.line}
        rows={facts.rows}
        empty={facts.empty}
        {...(facts.note === '' ? {} : { note: facts.note })}
      />
    </main>
  );
}
