/**
 * The only file that listens to the window. A message is taken from our own top frame, for a name of the contract,
 * within its size; everything else is refused and logged. The service applies the schema.
 */
import { randomBytes } from 'node:crypto';
import { ipcMain } from 'electron';
import type { ErrorCode } from '../../core/contract/errorCodes.ts';
import type { Envelope } from '../../core/contract/index.ts';
import { callLimits } from './callTable.ts';
import { callChannel } from './channels.ts';
import { type IsOurWindow, isOurSender, type Sender } from './sender.ts';

export interface GatewayParts {
  readonly isOurWindow: IsOurWindow;
  forward(name: string, inputText: string, traceId: string): Promise<Envelope<unknown>>;
  log(text: string): void;
}

function refuse(
  code: ErrorCode,
  details: Readonly<Record<string, unknown>>,
  traceId: string,
): Envelope<never> {
  return { ok: false, error: { code, details, traceId } };
}

/** The input as JSON text, or undefined for what JSON cannot hold (a cycle, a BigInt, nothing at all). */
function jsonText(input: unknown): string | undefined {
  try {
    return JSON.stringify(input);
  } catch {
    return undefined;
  }
}

/** Judges one message and forwards it when it is in order. */
export async function receive(
  parts: GatewayParts,
  sender: Sender,
  name: unknown,
  input: unknown,
): Promise<Envelope<unknown>> {
  const traceId = randomBytes(6).toString('hex');
  const refused = (code: ErrorCode, details: Readonly<Record<string, unknown>>) => {
    parts.log(`${traceId} refused ${code} ${JSON.stringify(details)}`);
    return refuse(code, details, traceId);
  };
  if (!isOurSender(sender, parts.isOurWindow)) return refused('call/refused', {});
  if (typeof name !== 'string' || !Object.hasOwn(callLimits, name)) {
    return refused('call/unknown', { name: String(name).slice(0, 80) });
  }
  const inputText = jsonText(input);
  if (inputText === undefined) return refused('call/invalid', { name, issues: ['not JSON'] });
  const limit = callLimits[name] ?? 0;
  if (inputText.length > limit) return refused('call/tooLarge', { name, limit });
  return parts.forward(name, inputText, traceId);
}

/** Starts listening. */
export function openGateway(parts: GatewayParts): void {
  ipcMain.handle(callChannel, (event, name: unknown, input: unknown) =>
    receive(parts, { contentsId: event.sender.id, frame: event.senderFrame }, name, input),
  );
}
