/** Something the shop does not have yet: says so and leads to where it is added. */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';

export function ToShop({ words }: { readonly words: string }): ReactNode {
  const actions = useActions();
  return (
    <div className="question">
      <span className="question-text">{words}</span>
      <Button onPress={() => actions.go({ screen: 'shop' })}>{say('shop.open')}</Button>
    </div>
  );
}
