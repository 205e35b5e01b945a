/** The one origin of the application. Chromium knows it as a standard scheme; Node's URL class does not. */
export const scheme = 'app';
export const appHost = 'datumline';
export const appOrigin = `${scheme}://${appHost}`;
export const startPage = `${appOrigin}/index.html`;

/** Whether a URL is on our origin. */
export function isOurUrl(url: string): boolean {
  try {
    const { protocol, host, username, password } = new URL(url);
    return protocol === `${scheme}:` && host === appHost && username === '' && password === '';
  } catch {
    return false;
  }
}
