// Copied into the stand-in runtime: does what an ordinary development Electron does by itself with its command line,
// `electron [-r MODULE] [SWITCHES] FOLDER`.
const { readFileSync } = require('node:fs');
const { join, resolve } = require('node:path');
const { app } = require('electron');

// Playwright's own module comes this way. It takes its part of the command line away, so it is loaded first.
const flag = process.argv.indexOf('-r');
if (flag !== -1) require(resolve(process.argv[flag + 1]));

const named = process.argv.slice(1).find((argument) => !argument.startsWith('-'));
if (named === undefined) {
  console.error('usage: electron [-r MODULE] FOLDER');
  process.exit(2);
}

const folder = resolve(named);
const { main, name, version } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
app.setAppPath(folder);
app.setName(name);
app.setVersion(version);
require(join(folder, main));
