// Notices go to stderr, so that `npm run cli -- ...` keeps stdout for its answer.

/** @param {string} text */
export function say(text) {
  process.stderr.write(`datumline: ${text}\n`);
}

/** A failure the person can act on: printed without a stack. */
export class SetupError extends Error {}

/**
 * Runs an entry script: its number is the exit code, a SetupError is one plain line.
 * @param {() => Promise<number>} main
 */
export async function runEntry(main) {
  try {
    process.exitCode = await main();
  } catch (error) {
    if (error instanceof SetupError) say(error.message);
    else console.error(error);
    process.exitCode = 1;
  }
}
