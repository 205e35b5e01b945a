/** The first start: open the demo shop to look round, or set up one's own. */
import { type ReactNode, useState } from 'react';
import { say } from '../../../core/words/index.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ProductMark } from '../../ui/Icon.tsx';
import { LanguageChoice } from '../../ui/LanguageChoice.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { SetUpShop } from './SetUpShop.tsx';

export function FirstRunScreen(): ReactNode {
  const actions = useActions();
  const problem = useWindow((state) => state.problem);
  const language = useWindow((state) => state.language);
  const [own, setOwn] = useState(false);
  const [opening, setOpening] = useState(false);
  if (own) return <SetUpShop onCancel={() => setOwn(false)} />;
  const openDemo = async (): Promise<void> => {
    setOpening(true);
    await actions.openDemo();
    setOpening(false);
  };
  return (
    <main className="page page-first">
      <div className="first">
        <ProductMark size={72} />
        <h1>{say('first.title')}</h1>
        <p>{say('first.words')}</p>
        {problem === null ? null : <ErrorNotice error={problem} />}
        <div className="first-choices">
          <section className="sheet">
            <h2>{say('first.demo')}</h2>
            <p>{say('first.demoWords')}</p>
            <Button weight="main" disabled={opening} onPress={() => void openDemo()} testId="open-demo">
              {opening ? say('first.opening') : say('first.openDemo')}
            </Button>
          </section>
          <section className="sheet">
            <h2>{say('first.own')}</h2>
            <p>{say('first.ownWords')}</p>
            <Button disabled={opening} onPress={() => setOwn(true)} testId="set-up">
              {say('first.setUp')}
            </Button>
          </section>
        </div>
        <p className="quiet">{say('first.caution')}</p>
        <LanguageChoice
          label={say('language.label')}
          testId="language"
          chosen={language}
          onChoose={actions.chooseLanguage}
        />
      </div>
    </main>
  );
}
