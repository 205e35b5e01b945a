/** The command line: the same service code as the window's. */
import { runCheck } from './check.ts';
import type { CommandIo } from './commandIo.ts';
import { runDemo } from './demo.ts';
import { runImpact } from './impact.ts';
import { runPlan } from './plan.ts';
import { runSolve } from './solve.ts';
import { runStudy } from './study.ts';

const io: CommandIo = {
  print: (text) => console.log(text),
  error: (text) => console.error(text),
};

const commands: Readonly<
  Record<string, (args: readonly string[], io: CommandIo) => Promise<number> | number>
> = {
  solve: runSolve,
  plan: runPlan,
  study: runStudy,
  check: runCheck,
  demo: runDemo,
  impact: runImpact,
};

const usage = `npm run cli -- COMMAND
  solve FILE.json [--json]   adjust a network of readings
  plan FILE.json [--json]    what readings will prove before any is taken; exit code 0 everything, 1 not everything
  study FILE.json [--json]   a repeatability study both ways, and the line for the shop; exit code 0 it replaces the default,
                             1 it does not
  check FILE.pdf [--root FINGERPRINT] [--json]
                             check a certificate; exit code 0 all yes, 1 any no, 2 something cannot be told here
  demo [--data FOLDER]       run the demo job to a signed PDF
  impact CORRECTIONS.json FILE|FOLDER... [--json]
                             solve certified jobs again with what was wrong put right; exit code 0 no verdict turns,
                             1 one does, 2 something cannot be read or solved`;

const [name = '', ...args] = process.argv.slice(2);
const command = Object.hasOwn(commands, name) ? commands[name] : undefined;
if (command === undefined) {
  io.error(usage);
  process.exitCode = 2;
} else {
  process.exitCode = await command(args, io);
}
