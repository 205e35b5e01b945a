/** How well a figure reproduces a certified one, as NIST and McCullough (1998) measure it. */

/** Log relative error: the number of significant digits that agree, at most 15; for a certified zero of the figure itself. */
export function digitsRight(found: number | undefined, certified: number): number {
  const value = found ?? Number.NaN;
  const off = certified === 0 ? Math.abs(value) : Math.abs(value - certified) / Math.abs(certified);
  if (Number.isNaN(off)) return 0;
  return Math.min(15, off === 0 ? 15 : -Math.log10(off));
}
