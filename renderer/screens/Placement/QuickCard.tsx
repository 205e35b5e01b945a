/**
 * Before the proof readings: two readings that say where to move the fixture, then the move with the tape held. It guides the
 * hands only, and can be skipped.
 */
import type { ReactNode } from 'react';
import { say, type WordKey } from '../../../core/words/index.ts';
import { type QuickGuide, quickSlot, quickText } from '../../state/quickGuide.ts';
import { readingText } from '../../state/readingEntry.ts';
import type { Slot } from '../../state/readings.ts';
import { lengthText } from '../../text/lengthText.ts';
import { moveAlone } from '../../text/moveWords.ts';
import { sayKey } from '../../text/sayKey.ts';
import { Button } from '../../ui/Button.tsx';

interface QuickCardProps {
  readonly guide: QuickGuide;
  readonly onPick: (key: string) => void;
  readonly onDone: () => void;
  readonly onSkip: () => void;
}

function LookRow({
  slot,
  next,
  onPick,
}: {
  readonly slot: Slot;
  readonly next: boolean;
  readonly onPick: (key: string) => void;
}): ReactNode {
  const last = slot.standing.at(-1);
  return (
    <li aria-current={next ? 'step' : undefined}>
      <Button
        weight={next ? 'plain' : 'quiet'}
        {...(last === undefined ? {} : { icon: 'done' as const })}
        onPress={() => onPick(slot.key)}
        testId={`quick-read-${slot.spec.id}`}
      >
        {sayKey(slot.spec.label)}
      </Button>
      {last === undefined ? null : <span className="strong">{readingText(last.value, slot.spec)}</span>}
    </li>
  );
}

function QuickMoveRows({ guide, onDone }: Pick<QuickCardProps, 'guide' | 'onDone'>): ReactNode {
  const { move } = guide;
  if (move === undefined) return null;
  return (
    <>
      <p className="strong">{moveAlone(move.move)}</p>
      {move.until === undefined || guide.heldSlot === undefined ? null : (
        <p>
          {say('quick.card.until', {
            reading: sayKey(guide.heldSlot.spec.label),
            reads: lengthText(move.until.valueMm, 0),
          })}
        </p>
      )}
      <Button
        icon="done"
        weight="main"
        label={say('moves.doneLabel', { move: quickText(guide) })}
        onPress={onDone}
        testId="quick-done"
      >
        {say('act.done')}
      </Button>
    </>
  );
}

function titleOf({ step, looks }: QuickGuide): WordKey {
  if (step === 'waits') return 'quick.card.waits';
  if (step === 'move') return 'quick.card.move';
  return looks > 0 ? 'quick.card.again' : 'quick.card.first';
}

export function QuickCard({ guide, onPick, onDone, onSkip }: QuickCardProps): ReactNode {
  const waits = quickSlot(guide);
  return (
    <section className="sheet quick-card" data-testid="quick" data-step={guide.step}>
      <h2>{sayKey(titleOf(guide))}</h2>
      {guide.step === 'move' ? <QuickMoveRows guide={guide} onDone={onDone} /> : null}
      {guide.step === 'look' ? (
        <ol className="quick-looks">
          {guide.slots.map((slot) => (
            <LookRow key={slot.key} slot={slot} next={slot === waits} onPick={onPick} />
          ))}
        </ol>
      ) : null}
      <p className="quiet">{say('quick.card.why')}</p>
      <Button weight="quiet" icon="go" onPress={onSkip} testId="quick-skip">
        {say('quick.card.skip')}
      </Button>
    </section>
  );
}
