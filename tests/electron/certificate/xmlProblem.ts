/** A strict little reader of XML 1.0 documents without DTD: enough to say whether a packet is well-formed. */

/** What is wrong, or undefined. */
export function xmlProblem(xml: string): string | undefined {
  const open: string[] = [];
  const name = '[A-Za-z_][\\w.-]*(?::[A-Za-z_][\\w.-]*)?';
  const attribute = new RegExp(`^\\s+(${name})\\s*=\\s*("[^"<]*"|'[^'<]*')`);
  let roots = 0;
  for (const [piece] of xml.matchAll(/<\?[\s\S]*?\?>|<[^>]*>|[^<]+|</g)) {
    if (!piece.startsWith('<')) {
      if (/&(?!(?:amp|lt|gt|quot|apos|#\d+|#x[0-9a-fA-F]+);)/.test(piece))
        return `a bare & in "${piece.trim()}"`;
      if (open.length === 0 && piece.trim() !== '') return 'text outside the root';
      continue;
    }
    if (piece.startsWith('<?')) continue;
    const closing = new RegExp(`^</(${name})\\s*>$`).exec(piece);
    if (closing !== null) {
      if (open.pop() !== closing[1]) return `${piece} closes nothing`;
      continue;
    }
    const start = new RegExp(`^<(${name})`).exec(piece);
    if (start === null) return `${piece} is no tag`;
    let rest = piece.slice(start[0].length);
    const seen = new Set<string>();
    for (let found = attribute.exec(rest); found !== null; found = attribute.exec(rest)) {
      if (seen.has(found[1] ?? '')) return `an attribute twice in ${piece}`;
      if (/&(?!(?:amp|lt|gt|quot|apos|#\d+|#x[0-9a-fA-F]+);)/.test(found[2] ?? ''))
        return `a bare & in ${piece}`;
      seen.add(found[1] ?? '');
      rest = rest.slice(found[0].length);
    }
    if (open.length === 0 && ++roots > 1) return 'two roots';
    if (/^\s*>$/.test(rest)) open.push(start[1] ?? '');
    else if (!/^\s*\/>$/.test(rest)) return `${piece} is no tag`;
  }
  if (open.length > 0) return `${open.join(', ')} not closed`;
  return roots === 1 ? undefined : 'no root';
}
