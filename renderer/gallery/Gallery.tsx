/**
 * Every component in every state, both themes side by side, for whoever changes one. Built only by `npm run gallery`
 * and its test: nothing in the window leads here.
 */
import type { ReactNode } from 'react';
import { Dialog } from '../ui/Dialog.tsx';
import { DistanceView } from '../ui/DistanceView.tsx';
import { WipeLock } from '../ui/WipeLock.tsx';
import { ButtonsPart, ChoicesPart, HoldPart, IconsPart, KeypadPart, LanguagesPart } from './controlParts.tsx';
import { BarsPart, EntriesPart, MarksPart, NoticesPart, ToneParts } from './stateParts.tsx';
import '../ui/tokens.css';
import '../ui/base.css';
import '../ui/controls.css';
import '../ui/covers.css';
import '../screens/cards.css';
import '../screens/desk.css';
import './gallery.css';

const nothing = (): void => undefined;

/** What covers a whole window is shown alone, by its name in the address. */
export const ALONE: Readonly<Record<string, ReactNode>> = {
  dialog: (
    <Dialog title="A question that must be answered" open onClose={nothing}>
      <p>What it is about, in one sentence.</p>
      <HoldPart />
    </Dialog>
  ),
  wipe: <WipeLock open onUnlock={nothing} />,
  distance: (
    <DistanceView
      line="Turn: car's-left end 10 mm away from the car, then read again"
      empty=""
      onClose={nothing}
      rows={[
        {
          key: 'ahead',
          title: 'Ahead',
          amount: '12.0',
          unit: 'mm',
          words: 'toward the car',
          arrow: 'toward',
          verdict: 'notProven',
          verdictWords: 'beyond, not proven',
        },
        {
          key: 'left',
          title: 'Side',
          amount: '0.0',
          unit: 'mm',
          words: 'where it must be',
          arrow: 'stay',
          verdict: 'proven',
          verdictWords: 'proven',
        },
        {
          key: 'yaw',
          title: 'Squareness',
          amount: '0.59',
          unit: '°',
          words: "car's-left end away from the car",
          arrow: 'clockwise',
          verdict: 'outside',
          verdictWords: 'outside',
        },
      ]}
    />
  ),
};

function Parts(): ReactNode {
  return (
    <>
      <ToneParts />
      <ButtonsPart />
      <HoldPart />
      <ChoicesPart />
      <LanguagesPart />
      <EntriesPart />
      <MarksPart />
      <BarsPart />
      <NoticesPart />
      <KeypadPart />
      <IconsPart />
    </>
  );
}

export function Gallery({ shown }: { readonly shown: string }): ReactNode {
  const alone = ALONE[shown];
  if (alone !== undefined) {
    return (
      <main>
        <h1 className="visually-hidden">{shown}</h1>
        {alone}
      </main>
    );
  }
  return (
    <main className="gallery">
      <h1 className="visually-hidden">Components</h1>
      {(['light', 'dark'] as const).map((theme) => (
        <section key={theme} className="gallery-theme" data-theme={theme} aria-label={theme}>
          <Parts />
        </section>
      ))}
    </main>
  );
}
