/** An instrument that sends a value sixty times a second, each line with the moment it left; tells its port to who started it. */
import { type AddressInfo, createServer } from 'node:net';

const [aroundMm = 1441] = process.argv.slice(2).map(Number);
const EVERY_MS = 1000 / 60;
/** How far the value swings, and in how many values once, so that the drawing is another one each time. */
const SWING_MM = 3;
const VALUES_A_SWING = 97;

const server = createServer((socket) => {
  socket.setNoDelay(true);
  socket.on('error', () => undefined);
  const start = performance.now();
  let sent = 0;
  const timer = setInterval(() => {
    // Timers come late: what is due by now is sent one by one, so that it is sixty a second over all.
    if (performance.now() - start < sent * EVERY_MS) return;
    sent += 1;
    const value = aroundMm + SWING_MM * Math.sin((2 * Math.PI * sent) / VALUES_A_SWING);
    const leftAt = performance.timeOrigin + performance.now();
    socket.write(`D1 +${value.toFixed(3)} mm ${leftAt.toFixed(3)}\r\n`);
  }, 1);
  socket.on('close', () => clearInterval(timer));
});
server.listen(0, '127.0.0.1', () => process.send?.((server.address() as AddressInfo).port));
process.on('disconnect', () => process.exit(0));
