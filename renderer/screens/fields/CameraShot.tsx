/** The camera's picture, and one press that takes it. */
import { type ReactNode, useEffect, useRef, useState } from 'react';
import { say } from '../../../core/words/index.ts';
import { type CleanPicture, pictureOfVideo } from '../../photos/cleanPicture.ts';
import { type CameraFault, cameraFault } from '../../scan/camera.ts';
import { Button } from '../../ui/Button.tsx';

const WANTED = { width: { ideal: 1_920 }, height: { ideal: 1_080 }, facingMode: 'environment' };

export function CameraShot({ onShot }: { readonly onShot: (picture: CleanPicture) => void }): ReactNode {
  const video = useRef<HTMLVideoElement>(null);
  const [fault, setFault] = useState<CameraFault | null>(null);
  const [ready, setReady] = useState(false);
  useEffect(() => {
    let ended = false;
    let stream: MediaStream | undefined;
    const stop = (): void => {
      for (const track of stream?.getTracks() ?? []) track.stop();
    };
    const open = async (): Promise<void> => {
      stream = await navigator.mediaDevices.getUserMedia({ video: WANTED, audio: false });
      const element = video.current;
      if (ended || element === null) return stop();
      element.srcObject = stream;
      await element.play();
      setReady(true);
    };
    open().catch((error: unknown) => {
      if (!ended) setFault(cameraFault(error));
    });
    return () => {
      ended = true;
      stop();
    };
  }, []);
  const take = async (): Promise<void> => {
    if (video.current === null) return;
    const picture = await pictureOfVideo(video.current);
    if (picture.ok) onShot(picture.value);
    else setFault('scan.cameraBusy');
  };
  if (fault !== null) return <p className="question">{say(fault)}</p>;
  return (
    <>
      <video ref={video} className="photo-large" muted playsInline />
      <Button weight="main" icon="camera" disabled={!ready} onPress={() => void take()}>
        {say('photo.take')}
      </Button>
    </>
  );
}
