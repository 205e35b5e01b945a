import { expect, test } from 'vitest';
import { xmlProblem } from './xmlProblem.ts';

test('takes well-formed documents', () => {
  expect(
    xmlProblem('<?xpacket begin=""?><a:b x="1" y=\'2\'><c/>text &amp; more &#65;</a:b>'),
  ).toBeUndefined();
});

test.each([
  '<a>&</a>',
  '<a>A & B</a>',
  '<a><b></a></b>',
  '<a>',
  '<a/><b/>',
  '<a x=1/>',
  '<a x="1" x="2"/>',
  '<a x="&"/>',
  'text',
  '',
  '<a>1 < 2</a>',
])('refuses %s', (xml) => {
  expect(xmlProblem(xml)).toBeDefined();
});
