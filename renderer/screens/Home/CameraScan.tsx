/** Reads a VIN from a label or paper held to the PC's camera. What is read is shown; nothing is taken without a touch. */
import { type ReactNode, useEffect, useRef, useState } from 'react';
import { vinFromScan } from '../../../core/entry/vinScan.ts';
import { say } from '../../../core/words/index.ts';
import { type CameraFault, scanWithCamera } from '../../scan/camera.ts';
import { sayKey } from '../../text/sayKey.ts';
import { Button } from '../../ui/Button.tsx';
import { Notice } from '../../ui/Notice.tsx';

/** What the codes in sight say: VINs to choose from, or why there is none. */
interface Seen {
  readonly vins: readonly string[];
  readonly words: string;
}

export function seenOf(texts: readonly string[]): Seen {
  const answers = texts.map((text) => vinFromScan(text));
  const vins = answers.flatMap((each) => (each.ok ? [each.value.vin] : each.error.vins));
  if (vins.length > 0) return { vins: [...new Set(vins)], words: say('scan.compare') };
  const [fault] = answers.flatMap((each) => (each.ok ? [] : [each.error]));
  return { vins: [], words: fault === undefined ? '' : sayKey(fault.key, fault.values) };
}

export function CameraScan({
  onVin,
  onClose,
}: {
  readonly onVin: (vin: string) => void;
  readonly onClose: () => void;
}): ReactNode {
  const video = useRef<HTMLVideoElement>(null);
  const [fault, setFault] = useState<CameraFault | null>(null);
  const [seen, setSeen] = useState<Seen>({ vins: [], words: '' });
  useEffect(() => {
    if (video.current === null) return undefined;
    // What was read stays until something else is: the label may have left the picture by the time it is touched.
    return scanWithCamera(video.current, { onTexts: (texts) => setSeen(seenOf(texts)), onFault: setFault });
  }, []);
  return (
    <section className="camera-scan" data-testid="camera-scan">
      {fault === null ? (
        <>
          <video ref={video} className="camera-picture" muted playsInline aria-label={say('scan.picture')} />
          <p className="quiet" role="status">
            {seen.words === '' ? say('scan.hold') : seen.words}
          </p>
        </>
      ) : (
        <Notice tone="trouble" title={say(fault)}>
          <p>{say(`${fault}.next`)}</p>
        </Notice>
      )}
      <div className="camera-buttons">
        {seen.vins.map((vin) => (
          <Button key={vin} weight="main" icon="done" onPress={() => onVin(vin)} testId="scan-take">
            {say('act.take', { value: vin })}
          </Button>
        ))}
        <Button icon="close" weight="quiet" onPress={onClose}>
          {say('scan.close')}
        </Button>
      </div>
    </section>
  );
}
