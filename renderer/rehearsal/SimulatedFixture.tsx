/**
 * The fixture of a rehearsal, seen from where the person stands: dragged and turned by hand, or moved as the screen asks.
 * It shows where the fixture is as eyes would, and nothing of where it must be: that is the readings' business.
 */
import { type PointerEvent, type ReactNode, useRef, useState } from 'react';
import type { PlacementAnswer } from '../../core/placement/placementAnswer.ts';
import { bumperAhead, draggedBy, movedAsAsked, type RehearsalState } from '../../core/rehearsal/index.ts';
import { say } from '../../core/words/index.ts';
import type { HeldJob } from '../state/heldJob.ts';
import type { PlacementView } from '../state/placementView.ts';
import { Button } from '../ui/Button.tsx';
import { keepRehearsal, useRehearsal } from './rehearsalState.ts';

/** What the little plan shows, mm: from the bumper outward, and to both sides. */
const SHOWN = { aheadMm: 2_600, sideMm: 1_400, carMm: 500 } as const;

interface Drag {
  readonly kind: 'shift' | 'turn';
  readonly x: number;
  readonly y: number;
}

/** The fixture as a bar in the little plan: the car at the top, its left at the person's right hand. */
function Bar({
  state,
  bumperMm,
  halfMm,
  onGrip,
}: {
  readonly state: RehearsalState;
  readonly bumperMm: number;
  readonly halfMm: number;
  readonly onGrip: (event: PointerEvent<SVGElement>, kind: Drag['kind']) => void;
}): ReactNode {
  const { ahead, left, yaw } = state.pose;
  const turned = ((yaw - Math.PI) * 180) / Math.PI;
  // A turn to the car's left is counter-clockwise from above, which this view shows clockwise: car's left is to the right.
  return (
    <g transform={`translate(${left} ${ahead - bumperMm}) rotate(${-turned})`}>
      <rect
        className="simulated-base"
        x={-halfMm}
        y={-90}
        width={2 * halfMm}
        height={180}
        onPointerDown={(event) => onGrip(event, 'shift')}
      />
      <circle
        className="simulated-grip"
        cx={halfMm}
        cy={0}
        r={130}
        onPointerDown={(event) => onGrip(event, 'turn')}
      />
    </g>
  );
}

const STEPS_MM = [1, 10, 100] as const;

export function SimulatedFixture({
  held,
  view,
  answer,
}: {
  readonly held: HeldJob;
  readonly view: PlacementView;
  readonly answer: PlacementAnswer | undefined;
}): ReactNode {
  const { job } = held;
  const state = useRehearsal(job, view.stations[0]);
  const sheet = useRef<SVGSVGElement>(null);
  const [drag, setDrag] = useState<Drag | null>(null);
  const [madeIn, setMadeIn] = useState<number | null>(null);
  const [stepMm, setStepMm] = useState<number>(10);
  const { equipment, procedure } = view.sensor;
  if (state === undefined || equipment === null || procedure === null) return null;
  const halfMm = equipment.fixture.barLengthMm / 2;
  const bumperMm = bumperAhead(state);
  const keep = (next: RehearsalState): void => keepRehearsal(job.id, next);
  const mmPerPixel = (): number => {
    const width = sheet.current?.getBoundingClientRect().width ?? 0;
    return width === 0 ? 0 : (2 * SHOWN.sideMm) / width;
  };
  const grip = (event: PointerEvent<SVGElement>, kind: Drag['kind']): void => {
    event.currentTarget.setPointerCapture(event.pointerId);
    setDrag({ kind, x: event.clientX, y: event.clientY });
  };
  const pull = (event: PointerEvent<SVGElement>): void => {
    if (drag === null) return;
    const right = (event.clientX - drag.x) * mmPerPixel();
    const down = (event.clientY - drag.y) * mmPerPixel();
    keep(
      drag.kind === 'shift'
        ? draggedBy(state, { aheadMm: down, leftMm: right })
        : draggedBy(state, { yawRad: -down / halfMm }),
    );
    setDrag({ ...drag, x: event.clientX, y: event.clientY });
  };
  const moves = (answer?.moves ?? []).filter((move) => move.kind !== 'setSlide');
  const made = madeIn === job.setUps.fixture;
  return (
    <section className="sheet simulated" data-testid="simulated-fixture">
      <h2 className="overline">{say('rehearsal.fixture')}</h2>
      {moves.length === 0 ? null : (
        <Button
          weight="main"
          icon="moved"
          disabled={made}
          testId="move-as-asked"
          onPress={() => {
            keep(movedAsAsked(state, moves, job.setUps.fixture));
            setMadeIn(job.setUps.fixture);
          }}
        >
          {say(made ? 'rehearsal.moved' : 'rehearsal.moveAsAsked')}
        </Button>
      )}
      <svg
        ref={sheet}
        className="simulated-plan"
        viewBox={`${-SHOWN.sideMm} ${-SHOWN.carMm} ${2 * SHOWN.sideMm} ${SHOWN.aheadMm + SHOWN.carMm}`}
        role="img"
        aria-label={say('rehearsal.plan')}
        onPointerMove={pull}
        onPointerUp={() => setDrag(null)}
        onPointerCancel={() => setDrag(null)}
      >
        <path className="simulated-car" d="M-820 -500V-180Q-820 0 -600 0H600Q820 0 820 -180V-500" />
        <Bar state={state} bumperMm={bumperMm} halfMm={halfMm} onGrip={grip} />
      </svg>
      <Hands state={state} stepMm={stepMm} halfMm={halfMm} onStep={setStepMm} onKeep={keep} />
      <p className="quiet">{say('rehearsal.tell')}</p>
    </section>
  );
}

/** The same by buttons, for keys and for millimetres. */
function Hands({
  state,
  stepMm,
  halfMm,
  onStep,
  onKeep,
}: {
  readonly state: RehearsalState;
  readonly stepMm: number;
  readonly halfMm: number;
  readonly onStep: (stepMm: number) => void;
  readonly onKeep: (next: RehearsalState) => void;
}): ReactNode {
  const hands = [
    ['rehearsal.toward', { aheadMm: -stepMm }],
    ['rehearsal.away', { aheadMm: stepMm }],
    ['rehearsal.toCarRight', { leftMm: -stepMm }],
    ['rehearsal.toCarLeft', { leftMm: stepMm }],
    ['rehearsal.leftEndToward', { yawRad: stepMm / halfMm }],
    ['rehearsal.leftEndAway', { yawRad: -stepMm / halfMm }],
  ] as const;
  return (
    <div className="simulated-hands">
      <div className="choices">
        {STEPS_MM.map((each) => (
          <Button key={each} pressed={each === stepMm} onPress={() => onStep(each)}>
            {say('rehearsal.step', { mm: String(each) })}
          </Button>
        ))}
      </div>
      {hands.map(([key, by]) => (
        <Button key={key} onPress={() => onKeep(draggedBy(state, by))} testId={key}>
          {say(key)}
        </Button>
      ))}
    </div>
  );
}
