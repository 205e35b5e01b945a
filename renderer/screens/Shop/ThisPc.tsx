/** How this PC's window is set: language, unit of lengths, theme, clicker. Kept on this PC, not with the shop. */
import { type ReactNode, useState } from 'react';
import { say } from '../../../core/words/index.ts';
import { LENGTH_UNITS, lengthUnitOf, THEME_CHOICES, themeOf } from '../../state/screenChoice.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { LanguageChoice } from '../../ui/LanguageChoice.tsx';
import { ClickerKeys } from '../Home/ClickerKeys.tsx';

export function ThisPc(): ReactNode {
  const actions = useActions();
  const theme = useWindow((state) => state.theme);
  const language = useWindow((state) => state.language);
  const lengthUnit = useWindow((state) => state.lengthUnit);
  const [clicker, setClicker] = useState(false);
  return (
    <section className="sheet" data-things="thisPc">
      <h2 className="overline">{say('shop.tab.thisPc')}</h2>
      <p className="quiet">{say('thisPc.words')}</p>
      <span className="field-label">{say('language.label')}</span>
      <LanguageChoice
        label={say('language.label')}
        testId="language"
        chosen={language}
        onChoose={actions.chooseLanguage}
      />
      <span className="field-label">{say('lengthUnit.label')}</span>
      <ChoiceButtons
        label={say('lengthUnit.label')}
        items={LENGTH_UNITS.map((value) => ({ value, text: say(`lengthUnit.${value}`) }))}
        chosen={[lengthUnit]}
        onChoose={([value]) => actions.chooseLengthUnit(lengthUnitOf(value ?? null))}
      />
      <span className="field-label">{say('theme.label')}</span>
      <ChoiceButtons
        label={say('theme.label')}
        items={THEME_CHOICES.map((value) => ({ value, text: say(`theme.${value}`) }))}
        chosen={[theme]}
        onChoose={([value]) => actions.chooseTheme(themeOf(value ?? null))}
      />
      <div>
        <Button icon="done" onPress={() => setClicker(true)} testId="clicker">
          {say('clicker.title')}
        </Button>
      </div>
      {clicker ? <ClickerKeys onClose={() => setClicker(false)} /> : null}
    </section>
  );
}
