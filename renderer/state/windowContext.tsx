/** Hands the store and the actions to every component. */
import { createContext, type ReactNode, useContext } from 'react';
import { useStore } from 'zustand';
import { invariant } from '../../core/result.ts';
import type { Actions } from './actions.ts';
import type { WindowState, WindowStore } from './windowState.ts';

interface Held {
  readonly store: WindowStore;
  readonly actions: Actions;
}

const WindowContext = createContext<Held | null>(null);

export function WindowProvider({
  store,
  actions,
  children,
}: Held & { readonly children: ReactNode }): ReactNode {
  return <WindowContext value={{ store, actions }}>{children}</WindowContext>;
}

function useHeld(): Held {
  const held = useContext(WindowContext);
  invariant(held !== null, 'the window has no store');
  return held;
}

/** One part of the window's state; the component is drawn again when that part changes. */
export function useWindow<T>(pick: (state: WindowState) => T): T {
  return useStore(useHeld().store, pick);
}

export function useActions(): Actions {
  return useHeld().actions;
}
