/** An instrument that never stops: `EVERY_MS LINES` on the command line; tells its port to who started it. */
import { type AddressInfo, createServer } from 'node:net';

const [everyMs = 10, lines = 10] = process.argv.slice(2).map(Number);
let sent = 0;

const server = createServer((socket) => {
  socket.on('error', () => undefined);
  const timer = setInterval(() => {
    const text = Array.from({ length: lines }, () => {
      sent += 1;
      return `D1 +${(1000 + (sent % 100) / 100).toFixed(3)} mm\r\n`;
    });
    socket.write(text.join(''));
  }, everyMs);
  socket.on('close', () => clearInterval(timer));
});
server.listen(0, '127.0.0.1', () => process.send?.((server.address() as AddressInfo).port));
process.on('disconnect', () => process.exit(0));
