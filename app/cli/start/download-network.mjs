/*
 * Loaded before Electron's installer, which by itself ignores proxies, waits five minutes for a download that stands
 * still, and does not say why one failed.
 */

import { subscribe } from 'node:diagnostics_channel';
import { EnvHttpProxyAgent, setGlobalDispatcher } from 'undici';

// A firewall may drop everything without an answer.
const STALLED_MS = 20_000;

setGlobalDispatcher(networkFor(process.env, STALLED_MS));
subscribe('undici:request:error', (message) => {
  const { error } = /** @type {{ error: Error & { code?: string } }} */ (message);
  process.stderr.write(`${error.message || error.code}\n`);
});

/**
 * The proxies come from the usual variables, otherwise from npm's own settings, which npm passes on in the
 * environment.
 * @param {NodeJS.ProcessEnv} env
 * @param {number} stalledMs
 */
export function networkFor(env, stalledMs) {
  const usual = (/** @type {string} */ name) => env[name] || env[name.toUpperCase()];
  const httpProxy = usual('http_proxy') || env['npm_config_proxy'];
  const httpsProxy = usual('https_proxy') || env['npm_config_https_proxy'] || httpProxy;
  const noProxy = usual('no_proxy') || env['npm_config_noproxy'];
  return new EnvHttpProxyAgent({
    ...(httpProxy ? { httpProxy } : {}),
    ...(httpsProxy ? { httpsProxy } : {}),
    ...(noProxy ? { noProxy } : {}),
    headersTimeout: stalledMs,
    bodyTimeout: stalledMs,
  });
}
