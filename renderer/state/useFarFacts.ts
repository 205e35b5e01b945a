/** Hands what a screen shows on to the second window, while there is a screen that shows it. */
import { useEffect, useRef } from 'react';
import { FAR_CHANNEL, type FarFacts, farSender } from './farMirror.ts';

export function useFarFacts(facts: FarFacts): void {
  const sender = useRef<ReturnType<typeof farSender> | null>(null);
  useEffect(() => {
    const opened = farSender(new BroadcastChannel(FAR_CHANNEL));
    sender.current = opened;
    return () => {
      sender.current = null;
      opened.close();
    };
  }, []);
  useEffect(() => sender.current?.send(facts));
}
