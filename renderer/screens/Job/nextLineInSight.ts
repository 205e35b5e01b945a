/** The line at the top of the job in sight, for what shows it a second time. */
import { createContext, useContext } from 'react';
import { invariant } from '../../../core/result.ts';
import type { NextLine } from '../../state/nextLine.ts';

export const NextLineInSight = createContext<NextLine | null>(null);

export function useNextLine(): NextLine {
  const line = useContext(NextLineInSight);
  invariant(line !== null, 'no job is in sight');
  return line;
}
