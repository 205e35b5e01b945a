/** The certificate as it would be issued now, unsigned and marked on every page, before anybody signs. */
import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { CertificateKind } from '../../../core/job/events.ts';
import { type Language, say } from '../../../core/words/index.ts';
import { drawPages } from '../../draft/drawPages.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import type { CallError } from '../../state/ports.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';

type Shown = { readonly state: 'closed' | 'drawing' | 'drawn' | 'failed' };

/** The pages of one draft. */
function Pages({
  digest,
  onState,
}: {
  readonly digest: string;
  readonly onState: (shown: Shown) => void;
}): ReactNode {
  const frame = useRef<HTMLDivElement>(null);
  useEffect(() => {
    let gone = false;
    const place = (page: number, pages: number): HTMLCanvasElement => {
      const canvas = document.createElement('canvas');
      canvas.className = 'draft-page';
      canvas.setAttribute('role', 'img');
      canvas.setAttribute('aria-label', say('draft.page', { page: String(page), pages: String(pages) }));
      frame.current?.append(canvas);
      return canvas;
    };
    frame.current?.replaceChildren();
    drawPages(digest, place, () => gone)
      .then(() => {
        if (!gone) onState({ state: 'drawn' });
      })
      .catch(() => {
        if (!gone) onState({ state: 'failed' });
      });
    return () => {
      gone = true;
    };
  }, [digest, onState]);
  return <div ref={frame} className="draft-pages" />;
}

interface DraftViewProps {
  readonly held: HeldJob;
  readonly kind: CertificateKind;
  readonly reason: string;
  readonly language: Language;
}

/** What a draft shows; another one would be drawn differently. */
function drawnFrom({ held, kind, reason, language }: DraftViewProps): string {
  return JSON.stringify([held.job.last.seq, kind, reason, language]);
}

export function DraftView(props: DraftViewProps): ReactNode {
  const { held, kind, reason, language } = props;
  const actions = useActions();
  const [digest, setDigest] = useState<string | null>(null);
  const [source, setSource] = useState('');
  const [shown, setShown] = useState<Shown>({ state: 'closed' });
  const [error, setError] = useState<CallError | null>(null);
  const draw = async (): Promise<void> => {
    setShown({ state: 'drawing' });
    setSource(drawnFrom(props));
    const answer = await actions.draft(held.job.id, kind, reason, language);
    setError(answer.ok ? null : answer.error);
    setDigest(answer.ok ? answer.value.digest : null);
    if (!answer.ok) setShown({ state: 'closed' });
  };
  return (
    <section className="sheet draft" data-testid="draft" data-state={shown.state}>
      <div className="photos-head">
        <h2 className="overline">{say('draft.title')}</h2>
        <Button icon="document" disabled={shown.state === 'drawing'} onPress={() => void draw()}>
          {say(digest === null ? 'draft.show' : 'draft.again')}
        </Button>
        {digest === null ? null : (
          <Button
            icon="close"
            weight="quiet"
            onPress={() => {
              setDigest(null);
              setShown({ state: 'closed' });
            }}
          >
            {say('draft.close')}
          </Button>
        )}
      </div>
      {shown.state === 'drawing' ? <p role="status">{say('draft.drawing')}</p> : null}
      {shown.state === 'drawn' && source !== drawnFrom(props) ? (
        <p className="question" role="status" data-testid="draft-stale">
          {say('draft.stale')}
        </p>
      ) : null}
      {shown.state === 'failed' ? <p className="question">{say('draft.failed')}</p> : null}
      {error === null ? null : <ErrorNotice error={error} />}
      {digest === null ? null : <Pages digest={digest} onState={setShown} />}
    </section>
  );
}
