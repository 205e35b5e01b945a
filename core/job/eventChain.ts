/**
 * Verification of the two chains of events: one per job, one over the whole store.
 *
 * Each event names the hash of its predecessor, so a change shows where a link breaks. One broken link cannot say which of
 * its two ends was changed; the next link, or an anchor (a hash known from elsewhere), tells. What no chain can show
 * by itself is a tail cut off or rewritten to its end: that takes an anchor too.
 */
import { type EventEnvelope, GENESIS, type OpenedText, openText } from './event.ts';

/** A place in a chain with the hash of the event there. */
export type ChainLink = { readonly seq: number; readonly hash: string };

/**
 * What was found. `seq` counts in the chain that was verified (`seq` of a job, `storeSeq` of the store).
 * - `unreadable`: the text is no event (any more)
 * - `changed`: the text is not the one its successor or an anchor saw
 * - `brokenLink`: one of the two neighbours was changed and nothing tells which (`seq` 0 is the chain's beginning)
 * - `gap`: events are missing
 * - `swapped`: an event stands at the wrong place (`position` counts from 1)
 * - `doubled`: a second event with the same number
 * - `foreign`: an event of another job or store
 * - `rewritten`: links agree with each other but not with an anchor
 */
export type ChainFinding =
  | { readonly what: 'unreadable'; readonly seq: number; readonly problem: string }
  | { readonly what: 'changed'; readonly seq: number }
  | { readonly what: 'brokenLink'; readonly seq: number; readonly nextSeq: number }
  | { readonly what: 'gap'; readonly fromSeq: number; readonly toSeq: number }
  | { readonly what: 'swapped'; readonly seq: number; readonly position: number }
  | { readonly what: 'doubled'; readonly seq: number }
  | { readonly what: 'foreign'; readonly seq: number; readonly of: string }
  | { readonly what: 'rewritten'; readonly fromSeq: number; readonly toSeq: number };

/** The answer: the readable events in order with their hashes, the last link, and what is wrong (nothing: the chain is whole). */
export type ChainReport = {
  readonly events: readonly EventEnvelope[];
  /** Of the same events, in the same order. */
  readonly hashes: readonly string[];
  readonly head: ChainLink;
  readonly findings: readonly ChainFinding[];
};

/** Hashes and reads one text; `openText`, or one that remembers its answers. */
type OpenText = (text: string) => OpenedText;

type ChainKind = {
  readonly owner: string;
  readonly ownerOf: (event: EventEnvelope) => string;
  readonly seqOf: (event: EventEnvelope) => number;
  readonly prevOf: (event: EventEnvelope) => string;
};

type Link = {
  readonly seq: number;
  readonly hash: string;
  readonly event: EventEnvelope | undefined;
};

/**
 * Verifies the stored texts of one job, in the order they were kept. `anchors` are hashes of this job's events known
 * from elsewhere (a certificate, the store's next event). Pure; never throws for bad texts.
 */
export function verifyJobChain(
  job: string,
  texts: readonly string[],
  anchors: readonly ChainLink[] = [],
  open: OpenText = openText,
): ChainReport {
  return verify(texts.map(open), anchors, {
    owner: job,
    ownerOf: (event) => event.job,
    seqOf: (event) => event.seq,
    prevOf: (event) => event.prevInJob,
  });
}

/** Verifies the stored texts of a whole store, in the order they were kept; otherwise like `verifyJobChain`. */
export function verifyStoreChain(
  store: string,
  texts: readonly string[],
  anchors: readonly ChainLink[] = [],
  open: OpenText = openText,
): ChainReport {
  return verify(texts.map(open), anchors, {
    owner: store,
    ownerOf: (event) => event.store,
    seqOf: (event) => event.storeSeq,
    prevOf: (event) => event.prevInStore,
  });
}

function verify(texts: readonly OpenedText[], anchors: readonly ChainLink[], kind: ChainKind): ChainReport {
  const findings: ChainFinding[] = [];
  const suspects = new Set<number>();
  const links = placeLinks(texts, kind, findings, suspects);
  reportOrder(links, findings);
  const ordered = uniqueInOrder(links, findings);
  reportGaps(ordered, anchors, findings);
  reportAnchors(ordered, anchors, kind, findings, suspects);
  reportLinks(ordered, anchors, kind, findings, suspects);
  const last = ordered.at(-1);
  return {
    events: ordered.flatMap((link) => (link.event === undefined ? [] : [link.event])),
    hashes: ordered.flatMap((link) => (link.event === undefined ? [] : [link.hash])),
    head: last === undefined ? { seq: 0, hash: GENESIS } : { seq: last.seq, hash: last.hash },
    findings: [...findings].sort((a, b) => startOf(a) - startOf(b)),
  };
}

/**
 * Gives each text its number. An event that follows its neighbour by hash stands where it belongs, whatever its own
 * text now says; an unreadable one is numbered by its place.
 */
function placeLinks(
  texts: readonly OpenedText[],
  kind: ChainKind,
  findings: ChainFinding[],
  suspects: Set<number>,
): readonly Link[] {
  const links: Link[] = [];
  for (const { hash, parsed } of texts) {
    const before = links.at(-1) ?? { seq: 0, hash: GENESIS };
    const place = before.seq + 1;
    if (!parsed.ok) {
      findings.push({ what: 'unreadable', seq: place, problem: parsed.error.details.problem });
      suspects.add(place);
      links.push({ seq: place, hash, event: undefined });
      continue;
    }
    const event = parsed.value;
    const seq = kind.seqOf(event);
    const belongs = kind.ownerOf(event) === kind.owner;
    if (belongs && seq === place) {
      links.push({ seq, hash, event });
    } else if (kind.prevOf(event) === before.hash) {
      findings.push({ what: 'changed', seq: place });
      suspects.add(place);
      links.push({ seq: place, hash, event });
    } else if (belongs) {
      links.push({ seq, hash, event });
    } else {
      findings.push({ what: 'foreign', seq, of: kind.ownerOf(event) });
    }
  }
  return links;
}

function reportOrder(links: readonly Link[], findings: ChainFinding[]): void {
  const sorted = links.map((link) => link.seq).sort((a, b) => a - b);
  links.forEach((link, index) => {
    if (link.seq !== sorted[index]) findings.push({ what: 'swapped', seq: link.seq, position: index + 1 });
  });
}

function uniqueInOrder(links: readonly Link[], findings: ChainFinding[]): readonly Link[] {
  const bySeq = new Map<number, Link>();
  for (const link of links) {
    if (bySeq.has(link.seq)) findings.push({ what: 'doubled', seq: link.seq });
    else bySeq.set(link.seq, link);
  }
  return [...bySeq.values()].sort((a, b) => a.seq - b.seq);
}

function reportGaps(ordered: readonly Link[], anchors: readonly ChainLink[], findings: ChainFinding[]): void {
  let next = 1;
  for (const link of ordered) {
    if (link.seq > next) findings.push({ what: 'gap', fromSeq: next, toSeq: link.seq - 1 });
    next = link.seq + 1;
  }
  const farthest = Math.max(0, ...anchors.map((anchor) => anchor.seq));
  if (farthest >= next) findings.push({ what: 'gap', fromSeq: next, toSeq: farthest });
}

/** An anchor that disagrees means a changed event when its successor disagrees too, else a chain written anew. */
function reportAnchors(
  ordered: readonly Link[],
  anchors: readonly ChainLink[],
  kind: ChainKind,
  findings: ChainFinding[],
  suspects: Set<number>,
): void {
  let good = 0;
  for (const anchor of [...anchors].sort((a, b) => a.seq - b.seq)) {
    const index = ordered.findIndex((link) => link.seq === anchor.seq);
    const link = ordered[index];
    if (link === undefined) continue;
    if (link.hash === anchor.hash) {
      good = anchor.seq;
      continue;
    }
    if (suspects.has(link.seq)) continue;
    const next = ordered[index + 1];
    const rewritten = next?.event !== undefined && kind.prevOf(next.event) === link.hash;
    suspects.add(link.seq);
    findings.push(
      rewritten
        ? { what: 'rewritten', fromSeq: good + 1, toSeq: anchor.seq }
        : { what: 'changed', seq: link.seq },
    );
  }
}

/** From the end to the beginning, so that a link's later end has already been judged by its own successor. */
function reportLinks(
  ordered: readonly Link[],
  anchors: readonly ChainLink[],
  kind: ChainKind,
  findings: ChainFinding[],
  suspects: Set<number>,
): void {
  const vouched = new Set(
    anchors.flatMap((anchor) =>
      ordered.some((link) => link.seq === anchor.seq && link.hash === anchor.hash) ? [anchor.seq] : [],
    ),
  );
  for (let index = ordered.length - 1; index >= 0; index -= 1) {
    const later = ordered[index];
    const earlier = index === 0 ? { seq: 0, hash: GENESIS } : ordered[index - 1];
    if (later?.event === undefined || earlier === undefined || later.seq !== earlier.seq + 1) continue;
    if (kind.prevOf(later.event) === earlier.hash) {
      if (!suspects.has(later.seq)) vouched.add(earlier.seq);
      continue;
    }
    if (suspects.has(earlier.seq) || suspects.has(later.seq)) continue;
    if (vouched.has(later.seq) && earlier.seq > 0 && !vouched.has(earlier.seq)) {
      findings.push({ what: 'changed', seq: earlier.seq });
      suspects.add(earlier.seq);
    } else if (vouched.has(earlier.seq) && !vouched.has(later.seq)) {
      findings.push({ what: 'changed', seq: later.seq });
      suspects.add(later.seq);
    } else {
      findings.push({ what: 'brokenLink', seq: earlier.seq, nextSeq: later.seq });
    }
  }
}

function startOf(finding: ChainFinding): number {
  return 'fromSeq' in finding ? finding.fromSeq : finding.seq;
}
