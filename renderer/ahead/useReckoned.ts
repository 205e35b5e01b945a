/** The answer to a question that is reckoned beside the window: undefined until it comes, null where there is none. */
import { useEffect, useSyncExternalStore } from 'react';
import type { Answers, Ask, Question, Reply } from './reckon.ts';
import { createReckoner, type OpenDesk } from './reckoner.ts';

const openWorker: OpenDesk = ({ onReply, onFault }) => {
  const worker = new Worker(new URL('./reckonWorker.ts', import.meta.url), { type: 'module' });
  worker.onmessage = ({ data }: MessageEvent<Reply>) => onReply(data);
  worker.onerror = onFault;
  worker.onmessageerror = onFault;
  return { post: (question) => worker.postMessage(question), close: () => worker.terminate() };
};

const reckoner = createReckoner(openWorker);

export function useReckoned<A extends Ask>(
  question: (Question & { readonly ask: A }) | undefined,
): Answers[A] | null | undefined {
  const look = () => (question === undefined ? undefined : reckoner.answer<A>(question.ask, question.key));
  const answer = useSyncExternalStore(reckoner.subscribe, look, look);
  useEffect(() => {
    if (question !== undefined && answer === undefined) reckoner.ask(question);
  }, [question, answer]);
  return answer;
}
