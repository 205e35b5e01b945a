/**
 * What an instrument that sends lines shows now: its newest value, large, whether it is connected, how old the value is,
 * what could not be read; and one act that takes it.
 */
import type { ReactNode } from 'react';
import type { ReadingSpec } from '../../../core/placement/recipe.ts';
import { say } from '../../../core/words/index.ts';
import { readingText } from '../../state/readingEntry.ts';
import { ageMs, FRESH_MS, type LiveInstrument } from '../../state/streams.ts';
import { Button } from '../../ui/Button.tsx';
import type { LiveReadingFacts } from './useLiveReading.ts';

type Standing = NonNullable<LiveInstrument['connection']>['state'];

/** Shape beside the word: full, half, hollow. */
const SHAPES: Readonly<Record<Standing, ReactNode>> = {
  open: <rect x="1" y="1" width="14" height="14" fill="currentColor" />,
  silent: <path d="M1 1h14v14H1ZM1 15 15 1v14Z" fill="currentColor" fillRule="evenodd" />,
  connecting: (
    <rect
      x="2"
      y="2"
      width="12"
      height="12"
      fill="none"
      stroke="currentColor"
      strokeDasharray="3 3"
      strokeWidth="2"
    />
  ),
  waiting: <path d="M2 2h12v12H2ZM2 14 14 2" fill="none" stroke="currentColor" strokeWidth="2" />,
  closed: <path d="M2 2h12v12H2ZM2 14 14 2" fill="none" stroke="currentColor" strokeWidth="2" />,
};

/** How the connection stands, in shape and word. */
export function ConnectionMark({ live }: { readonly live: LiveInstrument }): ReactNode {
  const state = live.connection?.state ?? 'connecting';
  return (
    <span className={`connection connection-${state}`} data-testid="connection" data-state={state}>
      <svg viewBox="0 0 16 16" aria-hidden="true">
        {SHAPES[state]}
      </svg>
      {say(`live.${state}`)}
    </span>
  );
}

/** Why it is not connected, and when it is tried again. */
export function connectionWords({ connection }: LiveInstrument): string {
  if (connection === null) return '';
  const { fault, nextTryMs } = connection;
  const why = fault === null ? '' : say(fault.key, fault.values);
  const seconds = String(Math.max(1, Math.round((nextTryMs ?? 0) / 1000)));
  return [why, nextTryMs === null ? '' : say('live.again', { seconds })].filter(Boolean).join(' ');
}

function ageWords(ms: number): string {
  const seconds = Math.round(ms / 1000);
  return seconds < 60
    ? say('live.age', { seconds: String(seconds) })
    : say('live.ageMinutes', { minutes: String(Math.floor(seconds / 60)) });
}

/** What could not be read, with the fault of the last such line while it is the last. */
export function unreadWords({ lines, unread, fault }: LiveInstrument): string {
  const counted = { unread: String(unread), lines: String(lines) };
  if (fault !== null && unread > 0) {
    return say('live.unread', { ...counted, fault: say(fault.key, fault.values) });
  }
  if (fault !== null) return say(fault.key, fault.values);
  return unread === 0 ? '' : say('live.unreadBefore', counted);
}

/** A tilt's sign is the instrument's own and is never shown: its way is said in words. */
function shownValue(value: number, spec: ReadingSpec): number {
  return spec.directions === undefined ? value : Math.abs(value);
}

export function LiveReading({
  facts,
  spec,
  onTake,
}: {
  readonly facts: LiveReadingFacts;
  readonly spec: ReadingSpec;
  readonly onTake: () => void;
}): ReactNode {
  const { live, nowMs, instrument, moving, take, shown } = facts;
  const { newest } = live;
  const old = newest === null ? 0 : ageMs(newest, nowMs);
  const words = [
    connectionWords(live),
    unreadWords(live),
    take?.needsWay === true ? say('live.chooseWay') : '',
    moving ? say('live.moving') : '',
    newest !== null && shown === undefined && live.connection?.state !== 'waiting' ? say('live.tooOld') : '',
  ].filter(Boolean);
  return (
    <div className="live" data-testid="live" data-line={newest?.line}>
      <div className="live-facts">
        <span className="quiet">{say('live.title', { instrument: instrument.name })}</span>
        <span className={take === undefined ? 'live-value live-old' : 'live-value'} data-testid="live-value">
          {newest === null ? say('live.none') : readingText(shownValue(newest.value.value, spec), spec)}
          {shown?.direction === undefined ? null : (
            <span className="live-way"> {say(`tilt.${shown.direction}`)}</span>
          )}
        </span>
      </div>
      <div className="live-state">
        <span>
          <ConnectionMark live={live} />
          {old > FRESH_MS ? <span className="live-age"> {ageWords(old)}</span> : null}
        </span>
        {words.map((line) => (
          <span key={line} className="live-words">
            {line}
          </span>
        ))}
      </div>
      <div className="live-take">
        <Button
          weight="main"
          icon="done"
          disabled={take === undefined}
          keepsFocus
          onPress={onTake}
          testId="take"
        >
          {say('live.take')}
        </Button>
      </div>
    </div>
  );
}
