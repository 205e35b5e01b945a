/** German wording of a repeatability study on the command line. */
import type { STUDY_WORDS } from '../study.ts';

export const STUDY_DE = {
  'study.size': '{parts} Aufbauten, {people} Personen, je {trials} Ablesungen',
  'study.table': 'Varianzanalyse',
  'study.head.dof': 'FG',
  'study.head.meanSquare': 'mittl. Quadrat',
  'study.head.f': 'F',
  'study.head.p': 'p',
  'study.line.part': 'Aufbauten',
  'study.line.person': 'Personen',
  'study.line.interaction': 'Personen je Aufbau',
  'study.line.reading': 'Ablesungen',
  'study.line.pooled': 'Ablesungen und Personen je Aufbau, vereint',
  'study.spread': 'Standardabweichung und Anteil am Messen',
  'study.head.anova': 'nach Varianz',
  'study.head.range': 'nach Spannweite',
  'study.component.repeatability': 'dieselbe Person',
  'study.component.reproducibility': 'zwischen Personen',
  'study.component.interaction': 'Personen je Aufbau',
  'study.component.measuring': 'Messen insgesamt',
  'study.component.parts': 'zwischen Aufbauten',
  'study.component.total': 'gesamt',
  'study.noConstants':
    'Für die Spannweiten gibt es Konstanten nur bei 2 oder 3 Ablesungen und 2 bis 10 Personen und Aufbauten.',
  'study.samePerson': 'Eine Ablesung, von derselben Person wiederholt: {s} mit {dof} Freiheitsgraden.',
  'study.anybody': 'Eine Ablesung durch irgendwen der Beteiligten: {s} mit {dof} Freiheitsgraden.',
  'study.peopleDiffer':
    'Die Personen unterscheiden sich stärker als zufällig (p = {p}): vor der Verwendung ansehen, wie jede das Band hält und abliest.',
  'study.line': 'Zeile für die Angaben der Werkstatt, Wiederholbarkeit, Band:',
  'study.notYet':
    'Für sich ersetzt sie die angegebene Vorgabe nicht: {least} Freiheitsgrade sind nötig, aus allen Studien zusammen.',
  'study.replaces':
    'Sie ersetzt die angegebene Vorgabe in jeder Aufstellung, deren Ausrüstung danach gewählt wird.',
  'study.allAlike':
    'Wiederholungen wichen nie ab: die Teilung des Bandes ist gröber als seine Streuung, die angegebene Vorgabe bleibt.',
  'study.tooFew': 'Eine Studie braucht mindestens zwei Aufbauten, zwei Personen und je zwei Ablesungen.',
  'study.unequal':
    'Aufbau {part}, Person {person}: andere Zahl von Ablesungen als beim ersten. Nichts wird ergänzt.',
  'study.notANumber': 'Aufbau {part}, Person {person}, Ablesung {trial} ist keine Zahl.',
} as const satisfies Readonly<Record<keyof typeof STUDY_WORDS, string>>;
