/** Who works at this PC now: their name stands in every entry. */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { SelectList } from '../../ui/SelectList.tsx';

export function PersonChooser(): ReactNode {
  const people = useWindow((state) => state.status?.shop?.people);
  const person = useWindow((state) => state.person);
  const actions = useActions();
  if (people === undefined) return null;
  return (
    <SelectList
      label={say('person.label')}
      hideLabel
      testId="person"
      placeholder={say('person.choose')}
      chosen={person}
      items={people.map((each) => ({
        value: each.id,
        text: each.name,
        note: each.roles.map((role) => say(`role.${role}`)).join(', '),
      }))}
      onChoose={actions.choosePerson}
    />
  );
}
