/** Writes the job scripts in `assets/demo` anew: `node tests/demo/writeDemoJob.ts`. A test holds the files against it. */
import { writeFileSync } from 'node:fs';
import type { DemoScript } from '../../electron/cli/demoScript.ts';
import { demoJob, stoppedJob } from './demoJob.ts';

/** The text of a script's file: one step a line, so that a change of one reading is a change of one line. */
export function scriptText({ steps, ...head }: DemoScript): string {
  const lines = steps.map((step) => `    ${JSON.stringify(step)}`).join(',\n');
  return `${JSON.stringify(head, null, 2).slice(0, -2)},\n  "steps": [\n${lines}\n  ]\n}\n`;
}

/** The scripts by file name. */
export const SCRIPTS = { 'demo-job.json': demoJob, 'demo-job-stopped.json': stoppedJob } as const;

/** Where a script lies. */
export const scriptFile = (name: string): URL => new URL(`../../assets/demo/${name}`, import.meta.url);

if (import.meta.main) {
  for (const [name, script] of Object.entries(SCRIPTS)) writeFileSync(scriptFile(name), scriptText(script()));
}
