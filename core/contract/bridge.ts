/** What the window may reach: the shape of the one object that the preload puts there. Types only. */
import type { CallName, Envelope, Input, Notice, NoticeName, Output } from './index.ts';

export interface Bridge {
  /** Sends one call and answers its envelope. Names outside the contract are refused before anything is sent. */
  call<N extends CallName>(name: N, input: Input<N>): Promise<Envelope<Output<N>>>;
  /** Listens to one notice; returns the function that stops listening. */
  on<N extends NoticeName>(name: N, listener: (notice: Notice<N>) => void): () => void;
}
