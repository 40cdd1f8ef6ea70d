/*
 * Chromium alone knows no schemes of our own, so an address of one stands as a host name that nothing on any
 * network has: `app://lanecall/display` is `https://lanecall.app.localhost/display` to the browser.
 */

const SUFFIX = 'localhost';

/** As the browser is given it. */
export function toBrowser(address: string): string {
  const [, scheme = '', host = '', rest = ''] = /^([a-z]+):\/\/([^/]*)(.*)$/.exec(address) ?? [];
  if (scheme === '' || ['http', 'https', 'ws', 'wss', 'devtools', 'file'].includes(scheme)) return address;
  return `https://${host}.${scheme}.${SUFFIX}${rest}`;
}

/** As the program gives and gets it. */
export function fromBrowser(address: string): string {
  const found = /^(blob:)?https:\/\/([^./]+)\.([a-z]+)\.localhost(\/.*)?$/.exec(address);
  if (!found) return address;
  const [, prefix = '', host, scheme, rest = '/'] = found;
  return `${prefix}${scheme}://${host}${rest}`;
}
