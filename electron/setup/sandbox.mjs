// Chromium refuses to start its sandbox as root. Only the development launcher and the tests turn it off, and only then.
import { say } from './say.mjs';

/** @param {number | undefined} [uid] */
export function sandboxArguments(uid = process.getuid?.()) {
  return uid === 0 ? ['--no-sandbox'] : [];
}

/** @param {number | undefined} [uid] */
export function tellAboutSandbox(uid = process.getuid?.()) {
  if (uid === 0)
    say("running as root: Chromium's sandbox is off (--no-sandbox). Use an ordinary account for real work.");
}
