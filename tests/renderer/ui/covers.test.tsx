import { readdirSync, readFileSync } from 'node:fs';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, test } from 'vitest';
import { Keypad } from '../../../renderer/ui/Keypad.tsx';

const keypad = (fractions: boolean): string =>
  renderToStaticMarkup(
    <Keypad text="14" fractions={fractions} onText={() => undefined} onEnter={() => undefined} />,
  );

const keysOf = (html: string): readonly string[] =>
  [...html.matchAll(/data-testid="key-([^"]*)"/g)].map((match) => match[1] ?? '');

describe('the keypad', () => {
  test('has every digit once, a decimal sign, a way to erase, and Enter', () => {
    const keys = keysOf(keypad(false));
    expect([...keys].sort()).toEqual([...'0123456789', 'decimal', 'enter', 'erase'].sort());
  });

  test('has what fractions need only where inches are read', () => {
    expect(keysOf(keypad(true))).toContain('keypad.stroke');
    expect(keysOf(keypad(true))).toContain('keypad.space');
    expect(keysOf(keypad(false)).filter((key) => key.startsWith('keypad.'))).toEqual([]);
  });

  test('every key without a digit on it has a name', () => {
    for (const [button = ''] of keypad(true).matchAll(/<button[\s\S]*?<\/button>/g)) {
      const face = button.replace(/<[^>]*>/g, '').trim();
      expect(/aria-label="[^"]+"/.test(button) || /^(\d|Enter)$/.test(face), button).toBe(true);
    }
  });

  test('no key can take the focus from the field', () => {
    for (const [button = ''] of keypad(true).matchAll(/<button[^>]*>/g))
      expect(button).toContain('tabindex="-1"');
  });

  test('keys are at least 18 mm each way: 68.03 pixels of 1/96 inch', () => {
    const css = readFileSync('renderer/ui/covers.css', 'utf8');
    const key = /\n\.key \{([^}]*)\}/.exec(css)?.[1] ?? '';
    const least = (18 / 25.4) * 96;
    for (const side of ['min-width', 'height']) {
      const px = Number(new RegExp(`(?:^|\\s)${side}: (\\d+)px`).exec(key)?.[1]);
      expect(px, side).toBeGreaterThanOrEqual(least);
    }
  });
});

describe('digits across the bay', () => {
  test('stand a fifth of the window high: the family’s digits are 1493 of 2048 units', () => {
    const css = readFileSync('renderer/ui/covers.css', 'utf8');
    const rule = /\n\.distance-amount \{([^}]*)\}/.exec(css)?.[1] ?? '';
    const share = Number(/font-size: ([\d.]+)vh/.exec(rule)?.[1]);
    expect((share * 1493) / 2048).toBeGreaterThanOrEqual(20);
  });
});

describe('the gallery', () => {
  const components = readdirSync('renderer/ui').filter((name) => name.endsWith('.tsx'));
  const gallery = readdirSync('renderer/gallery')
    .filter((name) => name.endsWith('.tsx'))
    .map((name) => readFileSync(`renderer/gallery/${name}`, 'utf8'))
    .join('\n');

  test('there are components', () => expect(components.length).toBeGreaterThan(12));

  test.each(components)('shows %s', (name) => {
    expect(gallery).toContain(`from '../ui/${name}'`);
  });

  test('is reached by nothing that a user has', () => {
    for (const folder of ['renderer', 'renderer/screens', 'renderer/state', 'renderer/ui']) {
      for (const name of readdirSync(folder, { recursive: folder !== 'renderer', encoding: 'utf8' })) {
        if (!/\.(tsx?|html)$/.test(name)) continue;
        expect(readFileSync(`${folder}/${name}`, 'utf8'), name).not.toMatch(/gallery/i);
      }
    }
    expect(readFileSync('vite.config.ts', 'utf8')).not.toMatch(/gallery/i);
  });
});
