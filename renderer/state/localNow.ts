/** The bay's clock: this PC's time of day, on the place's own clock. */
import { useEffect, useState } from 'react';
import { localMsOf } from '../../core/entry/index.ts';

const LOOK_AGAIN_MS = 5_000;

/** Now, in milliseconds of the local clock (see `core/entry/moment.ts`). */
export function localNowMs(): number {
  const now = new Date();
  return localMsOf(now.getTime(), -now.getTimezoneOffset());
}

/** The same for a screen, looked at often enough for minutes. */
export function useLocalNow(): number {
  const [now, setNow] = useState(localNowMs);
  useEffect(() => {
    const timer = setInterval(() => setNow(localNowMs()), LOOK_AGAIN_MS);
    return () => clearInterval(timer);
  }, []);
  return now;
}
