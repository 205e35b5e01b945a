/** A drawing that fills the place it is given, made anew for that place's size. */
import { type ReactNode, useMemo } from 'react';
import type { Scene, Sheet } from '../../../core/drawing/scene.ts';
import { SceneSvg } from '../../drawings/SceneSvg.tsx';
import { useSize } from '../readings/useSize.ts';

interface SceneSheetProps {
  readonly testId: string;
  /** Makes the drawing for a sheet; keep it the same function while nothing drawn changes. */
  readonly make: (sheet: Sheet) => Scene;
  readonly className?: string;
  readonly tools?: ReactNode;
  readonly onPick?: (pick: string) => void;
}

export function SceneSheet({ testId, make, className = '', tools, onPick }: SceneSheetProps): ReactNode {
  const [ref, size] = useSize<HTMLDivElement>();
  const scene = useMemo(
    () =>
      size === undefined || size.width < 80 || size.height < 60
        ? undefined
        : make({ widthPt: size.width, heightPt: size.height }),
    [size, make],
  );
  return (
    <section className={`plan ${className}`} data-testid={testId}>
      {tools === undefined ? null : <div className="plan-tools">{tools}</div>}
      <div className="plan-sheet" ref={ref}>
        {scene === undefined ? null : (
          <SceneSvg scene={scene} {...(onPick === undefined ? {} : { onPick })} />
        )}
      </div>
    </section>
  );
}
