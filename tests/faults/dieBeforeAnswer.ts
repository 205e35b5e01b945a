/**
 * Loaded into the service before its own code: kills the process when it is about to answer a request with a number from
 * `FATAL_ID` on. By then the command has been committed.
 */
export const FATAL_ID = 1_000_000_000;

const send = process.send?.bind(process);
if (send !== undefined) {
  process.send = (message: unknown, ...rest: never[]) => {
    const id = typeof message === 'object' && message !== null && 'id' in message ? message.id : 0;
    if (typeof id === 'number' && id >= FATAL_ID) process.kill(process.pid, 'SIGKILL');
    return send(message, ...rest);
  };
}
