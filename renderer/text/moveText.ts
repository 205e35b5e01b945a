/** A move in words, its amount in the unit lengths are shown in. */

import type { Move } from '../../core/placement/instruction.ts';
import { moveValues } from '../../core/placement/moves.ts';
import { shownLengthUnit } from './lengthText.ts';
import { sayKey } from './sayKey.ts';

export function moveText(move: Move): string {
  const { amount } = moveValues(move.kind, move.amountMm, shownLengthUnit());
  return sayKey(move.wordKey, 'amount' in move.values ? { ...move.values, amount } : move.values);
}
