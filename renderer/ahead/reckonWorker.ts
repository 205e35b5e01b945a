/** Reckons beside the window, so that no frame waits for it. One question in, one answer out. */
import '../state/zodWithoutEval.ts';
import { type Question, reckon } from './reckon.ts';

self.onmessage = ({ data }: MessageEvent<Question>) => self.postMessage(reckon(data));
