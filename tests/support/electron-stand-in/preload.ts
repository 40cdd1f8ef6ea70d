/*
 * What stands around a preload script in the stand-in: it runs before the page's own scripts, in the
 * window's own frame only, and finds the parts of `electron` that a sandboxed one has. There is no second
 * world for it, so its variables are kept from the page by a function around it.
 */

/** By these names page and main process reach each other; no page of ours uses them. */
export const SEND = '__standInSend';
export const HEAR = '__standInHear';

/** script: the preload script's text. */
export function aroundPreload(script: string): string {
  return `(() => {
  if (window !== window.top || !location.protocol.startsWith('https')) return;
  const listeners = new Map();
  const ask = window[${JSON.stringify(SEND)}];
  const copy = (words) => JSON.stringify(structuredClone(words));
  const ipcRenderer = {
    on(channel, listener) {
      listeners.set(channel, [...(listeners.get(channel) ?? []), listener]);
      return ipcRenderer;
    },
    send(channel, ...words) {
      void ask('send', channel, copy(words));
    },
    async invoke(channel, ...words) {
      const reply = JSON.parse(await ask('invoke', channel, copy(words)));
      if ('error' in reply) throw new Error(\`Error invoking remote method '\${channel}': \${reply.error}\`);
      return reply.value;
    },
  };
  const contextBridge = {
    exposeInMainWorld(name, api) {
      if (name in window) throw new Error('Cannot bind an API on top of an existing property on the window object');
      Object.defineProperty(window, name, { value: Object.freeze({ ...api }), enumerable: true });
    },
  };
  Object.defineProperty(window, ${JSON.stringify(HEAR)}, {
    value: (channel, words) => (listeners.get(channel) ?? []).forEach((listener) => listener({}, ...words)),
  });
  const require = (name) => {
    if (name !== 'electron') throw new Error(\`module not found: \${name}\`);
    return { contextBridge, ipcRenderer };
  };
  const module = { exports: {} };
  ((require, module, exports) => {
${script}
  })(require, module, module.exports);
})();`;
}
