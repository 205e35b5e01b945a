/** The headers of every answer over the application's origin. */

/**
 * SHA-256 of the one style element that react-aria injects (touch-action of whatever can be pressed). A test
 * recomputes it from the installed package.
 */
export const injectedStyleHash = 'sha256-38RhXrc7EdReTKsOm23ZPOCUgniTUUcjky8QOOrQx6o=';

/** Nothing from elsewhere, nothing inline, no evaluation. */
export const contentSecurityPolicy = [
  "default-src 'none'",
  "script-src 'self'",
  `style-src 'self' '${injectedStyleHash}'`,
  "img-src 'self' blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "frame-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'self'",
].join('; ');

/** The one script that may compile WebAssembly: the worker that decodes camera pictures. It has a policy of its own. */
const compiles = /^\/assets\/scanWorker-[\w-]+\.js$/;

/** The policy of a file of the window. */
export function policyOf(urlPath: string): string {
  return compiles.test(urlPath)
    ? contentSecurityPolicy.replace("script-src 'self'", "script-src 'self' 'wasm-unsafe-eval'")
    : contentSecurityPolicy;
}

const everyAnswer = {
  'Content-Security-Policy': contentSecurityPolicy,
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
};

/** All headers of an answer with a body of this type. */
export function headersFor(mediaType: string, more: Readonly<Record<string, string>> = {}): Headers {
  return new Headers({ ...everyAnswer, 'Content-Type': mediaType, ...more });
}
