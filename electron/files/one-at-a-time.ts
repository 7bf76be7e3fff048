/** Runs works on the same thing one after another, in the order in which they came; works on others are not held up. */
export function oneAtATime(): <T>(thing: string, work: () => Promise<T>) => Promise<T> {
  const last = new Map<string, Promise<unknown>>();
  return (thing, work) => {
    const before = last.get(thing) ?? Promise.resolve();
    const result = before.then(work, work);
    last.set(thing, result);
    const done = () => {
      if (last.get(thing) === result) last.delete(thing);
    };
    result.then(done, done);
    return result;
  };
}
