/** The cautions of a stage, always in sight at its top. */
import type { ReactNode } from 'react';
import { sayKey } from '../../text/sayKey.ts';
import { Icon } from '../../ui/Icon.tsx';

export function Cautions({ keys }: { readonly keys: readonly string[] }): ReactNode {
  if (keys.length === 0) return null;
  return (
    <ul className="cautions">
      {keys.map((key) => (
        <li key={key}>
          <Icon name="caution" />
          <span>{sayKey(key)}</span>
        </li>
      ))}
    </ul>
  );
}
