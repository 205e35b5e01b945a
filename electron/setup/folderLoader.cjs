// Copied into the stand-in runtime: starts the application folder named on the command line, which an ordinary
// development Electron does by itself.
const { readFileSync } = require('node:fs');
const { join, resolve } = require('node:path');
const { app } = require('electron');

const named = process.argv.slice(1).find((argument) => !argument.startsWith('-'));
if (named === undefined) {
  console.error('usage: electron FOLDER');
  process.exit(2);
}

const folder = resolve(named);
const { main, name, version } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
app.setAppPath(folder);
app.setName(name);
app.setVersion(version);
require(join(folder, main));
