// What a bare Debian machine lacks: libraries for the window, tools for the tests.
import { existsSync, readFileSync } from 'node:fs';
import { run } from './child.mjs';
import { SetupError, say } from './say.mjs';

/** Per entry the names it has had: newer releases renamed some (64-bit time). The first one known is installed. */
export const windowPackages = [
  ['libgtk-3-0', 'libgtk-3-0t64'],
  ['libnss3'],
  ['libasound2', 'libasound2t64'],
  ['libgbm1'],
  ['libxss1'],
  ['libxtst6'],
];

/** xvfb: a display; the rest read, check and attack what the application writes. */
export const testPackages = [
  ['xvfb'],
  ['git'],
  ['openssl'],
  ['poppler-utils'],
  ['qpdf'],
  ['mupdf-tools'],
  ['libnss3-tools'],
  ['strace'],
  ['socat'],
];

/**
 * The entries none of whose names is installed.
 * @param {readonly (readonly string[])[]} wanted
 * @param {string} dpkgOutput as `dpkg-query -l` prints it: a line `ii  name:arch  version ...` for what is installed
 */
export function missingPackages(wanted, dpkgOutput) {
  const installed = new Set([...dpkgOutput.matchAll(/^ii\s+([^\s:]+)/gm)].map(([, name]) => name));
  return wanted.filter((names) => !names.some((name) => installed.has(name)));
}

function isDebian() {
  if (process.platform !== 'linux' || !existsSync('/etc/os-release')) return false;
  return /^ID(_LIKE)?=.*debian/m.test(readFileSync('/etc/os-release', 'utf8'));
}

/** @param {readonly string[]} names */
async function firstKnown(names) {
  for (const name of names) {
    const { code, output } = await run('apt-cache', ['policy', name], { quiet: true });
    if (code === 0 && /Candidate: (?!\(none\))/.test(output)) return name;
  }
  return names[0] ?? '';
}

/**
 * Installs what is missing when it may (root on Debian), else prints the line a person runs.
 * @param {readonly (readonly string[])[]} wanted
 */
export async function ensurePackages(wanted) {
  if (process.platform !== 'linux') return;
  if (!isDebian()) {
    say(`not Debian: these must be there under this system's names: ${wanted.map(([n]) => n).join(' ')}`);
    return;
  }
  const missing = missingPackages(
    wanted,
    (await run('dpkg-query', ['-l'], { quiet: true, env: { ...process.env, COLUMNS: '400' } })).output,
  );
  if (missing.length === 0) return;
  if (process.getuid?.() !== 0) {
    say(
      `please run once: sudo apt-get install -y --no-install-recommends ${missing.map(([n]) => n).join(' ')}`,
    );
    return;
  }
  await install(missing);
}

/** @param {readonly (readonly string[])[]} missing */
async function install(missing) {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const wait = ['-o', 'DPkg::Lock::Timeout=300'];
  say(`installing Debian packages: ${missing.map(([name]) => name).join(' ')} ...`);
  const update = await run('apt-get', [...wait, 'update'], { env, quiet: true });
  const names = [];
  for (const entry of missing) names.push(await firstKnown(entry));
  const args = [...wait, 'install', '-y', '--no-install-recommends', ...names];
  const { code, output } = await run('apt-get', args, { env, quiet: true });
  if (code !== 0) throw new SetupError(`apt-get could not install them.\n${update.output}${output}`);
}
