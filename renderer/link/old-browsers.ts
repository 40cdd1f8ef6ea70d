/*
 * What television browsers of 2018 have not and the libraries of the pages use. Imported first of all.
 */

add(Object, 'fromEntries', (entries: Iterable<readonly [string, unknown]>) => {
  const object: { [key: string]: unknown } = {};
  for (const [key, value] of entries) object[key] = value;
  return object;
});

add(Array.prototype, 'flatMap', function (this: readonly unknown[], each: (item: unknown, index: number) => unknown) {
  const all: unknown[] = [];
  this.forEach((item, index) => {
    const made = each(item, index);
    if (Array.isArray(made)) made.forEach((value: unknown) => all.push(value));
    else all.push(made);
  });
  return all;
});

add(Promise, 'allSettled', (promises: Iterable<PromiseLike<unknown>>) =>
  Promise.all(
    Array.from(promises, (promise) =>
      Promise.resolve(promise).then(
        (value) => ({ status: 'fulfilled', value }),
        (reason: unknown) => ({ status: 'rejected', reason }),
      ),
    ),
  ),
);

/** Leaves alone what is there. */
function add(owner: object, name: string, value: unknown): void {
  if (name in owner) return;
  Object.defineProperty(owner, name, { value, configurable: true, writable: true, enumerable: false });
}

// Makes this file a module of its own, whose only effect is the above.
export {};
